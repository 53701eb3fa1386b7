package org.groovemend.listening;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.flac.Tool;
import org.groovemend.chain.MemorySide;
import org.groovemend.stage.Crew;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ClipMakerTest {

  private static final long ROOM = 1 << 30;
  private static final double SCALE = 1 << 23;

  @TempDir Path folder;

  /** Stereo, 24 bits: tones with noise, clicks every half second; without noise if clean. */
  private static MemorySide side(int rate, double seconds, double level, boolean clean) {
    Random random = new Random(9);
    int frames = (int) (rate * seconds);
    long[][] words = new long[2][frames];
    for (int i = 0; i < frames; i++) {
      for (int c = 0; c < 2; c++) {
        double x = level * Math.sin(2 * Math.PI * (500 + 100 * c) * i / rate);
        double hiss = 0.01 * level * random.nextGaussian();
        double click = i % (rate / 2) == 100 ? 2 * level : 0;
        words[c][i] = Math.round(SCALE * (clean ? x : x + hiss + click));
      }
    }
    return new MemorySide(AudioFormat.pcm(rate, 2, 24), words);
  }

  private List<Clip> make(MemorySide before, MemorySide after, long most, Passage... passages)
      throws IOException {
    return new ClipMaker(before, after, folder.resolve("clip.flac"), 1, Crew.alone())
        .make(List.of(passages), most);
  }

  private static Passage passage(long start, long end) {
    return new Passage(Passage.Kind.LOUDEST, start, end, "");
  }

  private long[][] decode(Clip.Version version) throws IOException {
    Path file = Files.createTempFile(folder, "decoded", ".flac");
    Files.write(file, version.flac());
    try (SideReader reader = SideFiles.open(file)) {
      assertThat(reader.format().containerBits()).isEqualTo(16);
      long[][] words = new long[2][(int) reader.frames()];
      reader.readWords(0, words[0].length, words, 0);
      return words;
    }
  }

  private static double fade(int i, int frames, int rate) {
    double from = (Math.min(i, frames - 1 - i) + 0.5) / (0.01 * rate);
    return from >= 1 ? 1 : Math.pow(Math.sin(Math.PI / 2 * from), 2);
  }

  @Test
  void versionsAreTheSamplesUpToOneGainAndTheFades() throws IOException {
    MemorySide before = side(48_000, 3, 0.1, false);
    MemorySide after = side(48_000, 3, 0.1, true);
    int start = 24_000;
    int frames = 96_000;
    Clip clip = make(before, after, ROOM, passage(start, start + frames)).get(0);
    assertThat(clip.sampleRateHz()).isEqualTo(48_000);
    // the clean copy: a sine of amplitude 0.1 is at -23.01 dBFS
    assertThat(clip.gainDb()).isCloseTo(0, within(0.101));
    assertThat(clip.versions())
        .extracting(Clip.Version::content)
        .containsExactly(Clip.Content.values());
    for (Clip.Version version : clip.versions()) {
      long[][] heard = decode(version);
      assertThat(heard[0]).hasSize(frames);
      double gain = Math.pow(10, (clip.gainDb() + version.raisedDb()) / 20) * 32_768;
      double worst = 0;
      for (int c = 0; c < 2; c++) {
        for (int i = 0; i < frames; i++) {
          double b = before.words()[c][start + i] / SCALE;
          double a = after.words()[c][start + i] / SCALE;
          double x =
              switch (version.content()) {
                case BEFORE -> b;
                case AFTER -> a;
                case REMOVED, REMOVED_RAISED -> b - a;
              };
          worst = Math.max(worst, Math.abs(heard[c][i] - gain * fade(i, frames, 48_000) * x));
        }
      }
      // triangular dither below one step, rounding half a step; and dither there must be
      assertThat(worst).isBetween(1.0, 1.5);
    }
  }

  @Test
  void noPeakPassesMinusOneDecibelAndEndsAreSilent() throws IOException {
    MemorySide before = side(48_000, 2, 0.45, false);
    MemorySide after = side(48_000, 2, 0.005, true);
    Clip clip = make(before, after, ROOM, passage(0, 96_000)).get(0);
    double top = Math.pow(10, -1 / 20.0) * 32_768;
    long most = 0;
    for (Clip.Version version : clip.versions()) {
      for (long[] channel : decode(version)) {
        for (long word : channel) {
          most = Math.max(most, Math.abs(word));
        }
        assertThat(Math.abs(channel[0])).isLessThanOrEqualTo(2);
        assertThat(Math.abs(channel[channel.length - 1])).isLessThanOrEqualTo(2);
      }
    }
    // gains are rounded down to a tenth of a decibel
    assertThat((double) most).isBetween(0.98 * top, top);
  }

  @Test
  void flacToolHearsTheSame() throws Exception {
    Tool.FLAC.assumeInstalled();
    Clip clip =
        make(side(44_100, 1, 0.1, false), side(44_100, 1, 0.1, true), ROOM, passage(0, 44_100))
            .get(0);
    Path file = folder.resolve("one.flac");
    Files.write(file, clip.versions().get(0).flac());
    Tool.FLAC.run(folder, "-d", "-s", "-o", "one.wav", file);
    long[][] ours = decode(clip.versions().get(0));
    try (SideReader reader = SideFiles.open(folder.resolve("one.wav"))) {
      long[][] theirs = new long[2][44_100];
      reader.readWords(0, 44_100, theirs, 0);
      assertThat(theirs).isDeepEqualTo(ours);
    }
  }

  @Test
  void whatWasNotChangedIsHeardOnce() throws IOException {
    MemorySide side = side(48_000, 2, 0.1, false);
    Clip clip = make(side, side, ROOM, passage(0, 50_000)).get(0);
    assertThat(clip.versions()).extracting(Clip.Version::content).containsOnly(Clip.Content.BEFORE);
  }

  @Test
  void highRatesAreHalvedAndKeepWhatCanBeHeard() throws IOException {
    MemorySide side = side(96_000, 2, 0.1, true);
    for (int i = 0; i < side.words()[1].length; i++) {
      // 15 kHz on the right: kept; 30 kHz on the left: gone, not folded to 18 kHz
      side.words()[0][i] = Math.round(0.4 * SCALE * Math.sin(2 * Math.PI * 30_000 * i / 96_000.0));
      side.words()[1][i] = Math.round(0.1 * SCALE * Math.sin(2 * Math.PI * 15_000 * i / 96_000.0));
    }
    Clip clip = make(side, side, ROOM, passage(9600, 105_600)).get(0);
    assertThat(clip.sampleRateHz()).isEqualTo(48_000);
    long[][] heard = decode(clip.versions().get(0));
    assertThat(heard[0]).hasSize(48_000);
    double gain = Math.pow(10, clip.gainDb() / 20) * 32_768;
    for (int i = 1000; i < 47_000; i++) {
      assertThat((double) heard[0][i]).isCloseTo(0, within(2.0));
      double x = 0.1 * gain * Math.sin(2 * Math.PI * 15_000 * (9600 + 2 * i) / 96_000.0);
      assertThat((double) heard[1][i]).isCloseTo(x, within(2.0 + 0.001 * gain * 0.1));
    }
  }

  @Test
  void tooManyBytesMakeClipsShorterNotThePageLarger() throws IOException {
    MemorySide before = side(48_000, 40, 0.1, false);
    MemorySide after = side(48_000, 40, 0.1, true);
    Passage loud = passage(48_000, 48_000 * 8);
    Passage end = new Passage(Passage.Kind.END, 48_000 * 20, 48_000 * 40, "");
    long all = make(before, after, ROOM, loud, end).stream().mapToLong(Clip::bytes).sum();
    long most = all * 2 / 5;
    List<Clip> clips = make(before, after, most, loud, end);
    assertThat(clips.stream().mapToLong(Clip::bytes).sum()).isBetween(most / 2, most);
    assertThat(clips.get(0).versions()).hasSize(4);
    // the end is not offered louder
    assertThat(clips.get(1).versions())
        .extracting(Clip.Version::content)
        .containsExactly(Clip.Content.BEFORE, Clip.Content.AFTER, Clip.Content.REMOVED);
    Passage shorter = clips.get(0).passage();
    assertThat(shorter.startFrame() - loud.startFrame())
        .isCloseTo(loud.endFrame() - shorter.endFrame(), within(1L));
    assertThat(clips.get(1).passage().endFrame()).isEqualTo(end.endFrame());
    assertThat(decode(clips.get(1).versions().get(0))[0])
        .hasSize((int) clips.get(1).passage().frames());
  }

  @Test
  void bytesAreTheSameOnAnyNumberOfThreads() throws IOException {
    MemorySide before = side(96_000, 3, 0.1, false);
    MemorySide after = side(96_000, 3, 0.1, true);
    ExecutorService pool = Executors.newFixedThreadPool(3);
    try {
      List<Clip> many =
          new ClipMaker(before, after, folder.resolve("clip.flac"), 1, new Crew(pool, 3))
              .make(List.of(passage(0, 200_000)), ROOM);
      Clip one = make(before, after, ROOM, passage(0, 200_000)).get(0);
      for (int i = 0; i < one.versions().size(); i++) {
        assertThat(many.get(0).versions().get(i).flac()).isEqualTo(one.versions().get(i).flac());
      }
      assertThat(Files.list(folder)).isEmpty();
    } finally {
      pool.shutdown();
    }
  }
}
