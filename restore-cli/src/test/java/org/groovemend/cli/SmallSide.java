package org.groovemend.cli;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;

/**
 * An invented side, of three seconds unless more are wanted, as a WAV file, every byte written by
 * hand (RIFF 1991; EBU Tech 3285 for bext).
 */
final class SmallSide {

  static final int RATE = 44_100;
  static final int FRAMES = 3 * RATE;
  static final int BYTES_PER_FRAME = 6;

  /**
   * Byte at which the samples begin: RIFF, fmt, bext and the unknown chunk with its pad byte lie
   * before.
   */
  static final int DATA_AT = 12 + 24 + 8 + 602 + 8 + 5 + 1 + 8;

  private SmallSide() {}

  static void write(Path file, long seed) throws IOException {
    write(file, seed, FRAMES);
  }

  static void write(Path file, long seed, int frames) throws IOException {
    int data = frames * BYTES_PER_FRAME;
    ByteBuffer out = ByteBuffer.allocate(DATA_AT + data).order(ByteOrder.LITTLE_ENDIAN);
    id(out, "RIFF").putInt(DATA_AT + data - 8);
    id(out, "WAVE");
    id(out, "fmt ").putInt(16).putShort((short) 1).putShort((short) 2).putInt(RATE);
    out.putInt(RATE * BYTES_PER_FRAME).putShort((short) BYTES_PER_FRAME).putShort((short) 24);
    byte[] bext = new byte[602];
    byte[] words = "Invented side, made by a test".getBytes(StandardCharsets.US_ASCII);
    System.arraycopy(words, 0, bext, 0, words.length);
    byte[] date = "2001-02-0304:05:06".getBytes(StandardCharsets.US_ASCII);
    System.arraycopy(date, 0, bext, 320, date.length);
    id(out, "bext").putInt(602).put(bext);
    id(out, "zzzq").putInt(5).put(new byte[] {1, 2, 3, 4, 5, 0});
    id(out, "data").putInt(data);
    Random random = new Random(seed);
    double lag = 0;
    int[] clicks = new int[(frames - RATE - 10_000) / 6500];
    for (int k = 0; k < clicks.length; k++) {
      clicks[k] = RATE + 8000 + k * 6500 + random.nextInt(1000);
    }
    for (int i = 0; i < frames; i++) {
      // groove noise alone for a second, then two tones over it
      lag = 0.6 * lag + 0.002 * random.nextGaussian();
      double music = i < RATE ? 0 : 0.2 * Math.sin(i * 0.0627) + 0.1 * Math.sin(i * 0.1781 + 1);
      double click = 0;
      for (int at : clicks) {
        if (i >= at && i < at + 12) {
          click = 0.6 * ((i - at) % 4 < 2 ? 1 : -1) * (1 - (i - at) / 12.0);
        }
      }
      for (int c = 0; c < 2; c++) {
        double v = music + lag + 0.001 * random.nextGaussian() + (c == 0 ? click : 0.8 * click);
        int word = (int) Math.round(v * 8_388_607);
        out.put((byte) word).put((byte) (word >> 8)).put((byte) (word >> 16));
      }
    }
    Files.write(file, out.array());
  }

  private static ByteBuffer id(ByteBuffer out, String id) {
    return out.put(id.getBytes(StandardCharsets.US_ASCII));
  }
}
