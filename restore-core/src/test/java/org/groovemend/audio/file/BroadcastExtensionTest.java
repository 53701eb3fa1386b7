package org.groovemend.audio.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class BroadcastExtensionTest {

  private static final AudioFormat WIDE = AudioFormat.pcm(96_000, 2, 24);
  private static final String LINE = CodingHistory.line(WIDE, "restoration; clicks");
  private static final BroadcastExtension.Origin NONE =
      new BroadcastExtension.Origin("", null, null);

  private static byte[] withHistory(String history) {
    byte[] text = history.getBytes(StandardCharsets.ISO_8859_1);
    byte[] chunk = Arrays.copyOf(AwkwardFiles.bytes(new Random(4), 602), 602 + text.length);
    System.arraycopy(text, 0, chunk, 602, text.length);
    return chunk;
  }

  private static String history(byte[] chunk) {
    return new String(chunk, 602, chunk.length - 602, StandardCharsets.ISO_8859_1);
  }

  @Test
  void lineHasTheFieldsOfTheRecommendationInOrder() {
    // check values, section 7: A=PCM,F=96000,W=24,M=mono,T=converter; A/D
    assertThat(CodingHistory.line(AudioFormat.pcm(96_000, 1, 24), "converter; A/D"))
        .isEqualTo("A=PCM,F=96000,W=24,M=mono,T=converter; A/D\r\n");
    assertThat(CodingHistory.line(AudioFormat.ieeeFloat(44_100, 2, 32), "x"))
        .isEqualTo("A=PCM,F=44100,W=32,M=stereo,T=IEEE float; x\r\n");
  }

  @Test
  void modeIsWhatTheChannelsHold() {
    AudioFormat two = AudioFormat.pcm(48_000, 2, 24);
    AudioFormat one = AudioFormat.pcm(48_000, 1, 24);
    String joined = CodingHistory.line(two, CodingHistory.Mode.DUAL_MONO, "walls joined");
    assertThat(joined).isEqualTo("A=PCM,F=48000,W=24,M=dual-mono,T=walls joined\r\n");
    assertThat(CodingHistory.mode(joined, two)).isEqualTo(CodingHistory.Mode.DUAL_MONO);
    assertThat(CodingHistory.mode(joined, one)).isEqualTo(CodingHistory.Mode.MONO);
    assertThat(CodingHistory.mode(joined + CodingHistory.line(two, "x"), two))
        .isEqualTo(CodingHistory.Mode.STEREO);
    assertThat(CodingHistory.mode("A=ANALOGUE,M=mono,T=78.26 rpm\r\n", two))
        .isEqualTo(CodingHistory.Mode.STEREO);
    assertThat(CodingHistory.mode("", one)).isEqualTo(CodingHistory.Mode.MONO);
    assertThatThrownBy(() -> CodingHistory.line(one, CodingHistory.Mode.DUAL_MONO, "x"))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> CodingHistory.line(two, CodingHistory.Mode.MONO, "x"))
        .isInstanceOf(IllegalArgumentException.class);
  }

  /** EBU Tech 3285 v2: hundredths; 0x7fff for what is not given. */
  @Test
  void loudnessIsWrittenInHundredthsAndMakesVersionTwo() {
    byte[] before = BroadcastExtension.withHistoryLine(null, LINE, NONE);
    byte[] after =
        BroadcastExtension.withLoudness(before, -23.004, 7.25, -1, Double.NEGATIVE_INFINITY, -18.5);
    BroadcastExtension read = BroadcastExtension.parse(after);
    assertThat(read.loudness()).containsExactly(-2300, 725, -100, 0x7fff, -1850);
    assertThat(read.version()).isEqualTo(2);
    assertThat(read.codingHistory()).isEqualTo(LINE);
    assertThat(BroadcastExtension.parse(BroadcastExtension.withoutLoudness(after)).loudness())
        .containsOnly(0x7fff);
    assertThat(BroadcastExtension.withoutLoudness(before)).isEqualTo(before);
    byte[] rest = after.clone();
    System.arraycopy(before, 412, rest, 412, 10);
    System.arraycopy(before, 346, rest, 346, 2);
    assertThat(rest).isEqualTo(before);
  }

  @ParameterizedTest
  @ValueSource(strings = {"a,b", "a\r\nb", "\u00e9", "\u007f"})
  void textThatWouldBreakTheLineIsRefused(String text) {
    assertThatThrownBy(() -> CodingHistory.line(WIDE, text))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "A=ANALOGUE,M=mono,T=turntable; 78.26 rpm; coarse groove\r\n",
        "A=ANALOGUE\r\nA=PCM,F=96000,W=24,M=mono,T=\u00e9 odd but kept\r\n",
        "only line feed\n",
      })
  void lineIsAddedAndEverythingBeforeItKept(String history) {
    byte[] before = withHistory(history);
    byte[] kept = before.clone();
    byte[] after = BroadcastExtension.withHistoryLine(before, LINE, NONE);
    assertThat(before).isEqualTo(kept);
    assertThat(after).startsWith(before);
    assertThat(history(after)).isEqualTo(history + LINE);
  }

  @Test
  void unfinishedLastLineIsEndedAndNulsBehindItAreDropped() {
    String open = "A=ANALOGUE,M=mono";
    assertThat(history(BroadcastExtension.withHistoryLine(withHistory(open), LINE, NONE)))
        .isEqualTo(open + "\r\n" + LINE);
    assertThat(history(BroadcastExtension.withHistoryLine(withHistory(open + "\r"), LINE, NONE)))
        .isEqualTo(open + "\r\n" + LINE);
    byte[] padded = withHistory(open + "\r\n\0\0\0");
    assertThat(history(BroadcastExtension.withHistoryLine(padded, LINE, NONE)))
        .isEqualTo(open + "\r\n" + LINE);
  }

  @Test
  void twoLinesAddedOneAfterTheOtherStandInOrder() {
    byte[] once = BroadcastExtension.withHistoryLine(null, LINE, NONE);
    byte[] twice = BroadcastExtension.withHistoryLine(once, LINE, NONE);
    assertThat(BroadcastExtension.parse(twice).codingHistoryLines())
        .containsExactly(LINE.strip(), LINE.strip());
  }

  @Test
  void shortExtensionIsFilledUp() {
    byte[] before = AwkwardFiles.bytes(new Random(4), 100);
    byte[] after = BroadcastExtension.withHistoryLine(before, LINE, NONE);
    assertThat(after).startsWith(before).hasSize(602 + LINE.length());
    assertThat(history(after)).isEqualTo(LINE);
  }

  @Test
  void newExtensionSaysWhoAndWhen() {
    var origin =
        new BroadcastExtension.Origin(
            "Side A, restored", null, LocalDateTime.of(2031, 2, 3, 4, 5, 6));
    byte[] made = BroadcastExtension.withHistoryLine(null, LINE, origin);
    BroadcastExtension read = BroadcastExtension.parse(made);
    assertThat(read.description()).isEqualTo("Side A, restored");
    assertThat(read.originator()).isEqualTo("groovemend");
    assertThat(read.originationDate()).isEqualTo("2031-02-03");
    assertThat(read.originationTime()).isEqualTo("04:05:06");
    assertThat(read.version()).isEqualTo(1);
    assertThat(read.codingHistory()).isEqualTo(LINE);
    byte[] undated =
        BroadcastExtension.withHistoryLine(
            null, LINE, new BroadcastExtension.Origin("x".repeat(300), "z".repeat(40), null));
    assertThat(BroadcastExtension.parse(undated).description()).isEqualTo("x".repeat(256));
    assertThat(BroadcastExtension.parse(undated).originator()).isEqualTo("z".repeat(32));
    assertThat(BroadcastExtension.parse(undated).originationDate()).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"no end", "two\r\nlines\r\n", ""})
  void whatIsNotOneLineIsNotAdded(String line) {
    assertThatThrownBy(() -> BroadcastExtension.withHistoryLine(null, line, NONE))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
