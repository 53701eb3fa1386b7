package org.groovemend.audio.file;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;

/** Legal but awkward WAV, RF64, BW64, AIFF and AIFF-C files from a seed. */
public final class AwkwardFiles {

  /**
   * @param chunkIds names of the chunks a copy carries, "data" for the samples; null for AIFF
   * @param chunkContents their contents, null for the samples
   */
  public record Made(
      byte[] file,
      AudioFormat format,
      long[][] words,
      String container,
      List<String> chunkIds,
      List<byte[]> chunkContents) {}

  private static final int[] RATES = {
    8_000, 11_025, 16_000, 22_050, 44_100, 48_000, 88_200, 96_000, 176_400, 192_000, 384_000, 78_261
  };
  private static final String[] OTHERS = {"LIST", "JUNK", "cue ", "iXML", "id3 ", "abcd", "fac~"};

  private AwkwardFiles() {}

  /** What the file is to hold. */
  @FunctionalInterface
  public interface WordMaker {
    long[][] words(Random random, AudioFormat format, int frames);
  }

  static Made make(long seed) {
    return make(seed, 300, AwkwardFiles::words);
  }

  /** A file of 1 to {@code mostFrames} frames with the given content. */
  public static Made make(long seed, int mostFrames, WordMaker content) {
    Random random = new Random(seed);
    return random.nextInt(3) == 0
        ? aiff(random, mostFrames, content)
        : wav(random, mostFrames, content);
  }

  public static AudioFormat format(Random random) {
    int rate = RATES[random.nextInt(RATES.length)];
    int channels = 1 + random.nextInt(2);
    return switch (random.nextInt(7)) {
      case 0 -> AudioFormat.pcm(rate, channels, 16);
      case 1, 2 -> AudioFormat.pcm(rate, channels, 24);
      case 3 -> AudioFormat.pcm(rate, channels, 32);
      case 4 -> AudioFormat.ieeeFloat(rate, channels, 32);
      case 5 -> AudioFormat.ieeeFloat(rate, channels, 64);
      default -> {
        int container = 16 + 8 * random.nextInt(3);
        int spare = 1 + random.nextInt(7);
        yield new AudioFormat(rate, channels, SampleCoding.PCM, container, container - spare);
      }
    };
  }

  static long[][] words(Random random, AudioFormat format, int frames) {
    long[][] words = new long[format.channels()][frames];
    int spare = format.containerBits() - format.significantBits();
    for (long[] channel : words) {
      for (int i = 0; i < frames; i++) {
        double value = random.nextGaussian();
        channel[i] =
            format.coding() == SampleCoding.PCM
                ? random.nextLong() >> 64 - format.significantBits() << spare
                : format.containerBits() == 32
                    ? Float.floatToRawIntBits((float) value)
                    : Double.doubleToRawLongBits(value);
      }
    }
    return words;
  }

  private static Made wav(Random random, int mostFrames, WordMaker content) {
    AudioFormat format = format(random);
    long[][] words = content.words(random, format, frames(random, mostFrames));
    byte[] samples = FileBuilder.samples(words, format, false);
    boolean extensible = random.nextBoolean();
    byte[] fmt = extensible ? FileBuilder.extensibleFmt(format) : FileBuilder.plainFmt(format);
    if (random.nextInt(4) == 0) { // more bytes in fmt than anyone reads
      fmt = FileBuilder.part(false).raw(fmt).raw(bytes(random, 1 + random.nextInt(9))).content();
    }
    List<String> ids = new ArrayList<>();
    List<byte[]> contents = new ArrayList<>();
    for (int i = random.nextInt(6); i > 0; i--) {
      ids.add(OTHERS[random.nextInt(OTHERS.length)]);
      contents.add(bytes(random, random.nextInt(40)));
    }
    int data = random.nextInt(ids.size() + 1);
    ids.add(data, "data");
    contents.add(data, null);
    int kind = random.nextInt(5);
    boolean streaming = kind == 4 && random.nextBoolean() && words[0].length > 0;
    int fmtAt = random.nextInt(streaming ? data + 1 : ids.size() + 1);
    ids.add(fmtAt, "fmt ");
    contents.add(fmtAt, fmt);
    if (streaming) { // nothing may follow the samples
      int end = ids.indexOf("data") + 1;
      ids = new ArrayList<>(ids.subList(0, end));
      contents = new ArrayList<>(contents.subList(0, end));
    }
    boolean large = kind == 2 || kind == 3;
    String magic = kind == 2 ? "RF64" : "BW64";
    boolean padded = random.nextInt(4) != 0;
    FileBuilder out = FileBuilder.wav();
    if (large) {
      long total = 12 + 36;
      for (byte[] chunk : contents) {
        int size = chunk == null ? samples.length : chunk.length;
        total += 8 + size + (padded ? size % 2 : 0);
      }
      out =
          FileBuilder.large(magic)
              .chunk("ds64", FileBuilder.ds64(total - 8, samples.length, words[0].length));
    }
    for (int i = 0; i < ids.size(); i++) {
      if (contents.get(i) == null) {
        long size =
            large ? 0xffff_ffffL : streaming ? random.nextInt(2) * 0xffff_ffffL : samples.length;
        out.chunk("data", size, samples, padded && !streaming);
      } else {
        out.chunk(ids.get(i), contents.get(i).length, contents.get(i), padded);
      }
    }
    if (streaming) {
      out.wholeSize(random.nextInt(2) * 0xffff_ffffL);
    } else if (random.nextInt(4) == 0) { // junk behind the end: no chunk name begins with 1
      byte[] bytes = out.bytes();
      out = FileBuilder.part(false).raw(bytes).number(1, 1).raw(bytes(random, random.nextInt(30)));
      bytes = out.content();
      return made(bytes, format, words, large ? magic : "WAV", extensible, ids, contents);
    }
    return made(out.bytes(), format, words, large ? magic : "WAV", extensible, ids, contents);
  }

  private static Made made(
      byte[] file,
      AudioFormat format,
      long[][] words,
      String container,
      boolean extensible,
      List<String> ids,
      List<byte[]> contents) {
    return new Made(
        file, format, words, container + (extensible ? " (extensible)" : ""), ids, contents);
  }

  private static Made aiff(Random random, int mostFrames, WordMaker maker) {
    AudioFormat format = format(random);
    boolean isFloat = format.coding() == SampleCoding.FLOAT;
    boolean little = !isFloat && random.nextBoolean();
    String coding = null;
    if (isFloat) {
      coding = (random.nextBoolean() ? "fl" : "FL") + format.containerBits();
    } else if (little) {
      coding = "sowt";
    } else {
      int pick = random.nextInt(3);
      coding = pick == 0 ? null : pick == 1 ? "NONE" : "twos";
    }
    long[][] words = maker.words(random, format, frames(random, mostFrames));
    byte[] samples = FileBuilder.samples(words, format, !little);
    byte[] filler = bytes(random, random.nextInt(3) * random.nextInt(9));
    List<Runnable> chunks = new ArrayList<>();
    FileBuilder out = FileBuilder.aiff(coding != null);
    String name = coding;
    boolean padded = random.nextInt(4) != 0;
    chunks.add(() -> out.chunk("COMM", FileBuilder.comm(format, words[0].length, name)));
    byte[] ssnd = FileBuilder.ssnd(filler.length, 0, filler, samples);
    chunks.add(() -> out.chunk("SSND", ssnd.length, ssnd, padded));
    for (int i = random.nextInt(4); i > 0; i--) {
      String id = OTHERS[random.nextInt(OTHERS.length)];
      byte[] content = bytes(random, random.nextInt(40));
      chunks.add(() -> out.chunk(id, content.length, content, padded));
    }
    Collections.shuffle(chunks, random);
    chunks.forEach(Runnable::run);
    return new Made(
        out.bytes(),
        format,
        words,
        coding == null ? "AIFF" : "AIFF-C (" + coding + ")",
        null,
        null);
  }

  private static int frames(Random random, int most) {
    return random.nextInt(8) == 0 ? 1 : 1 + random.nextInt(most);
  }

  static byte[] bytes(Random random, int count) {
    byte[] bytes = new byte[count];
    random.nextBytes(bytes);
    return bytes;
  }
}
