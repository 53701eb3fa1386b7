package org.groovemend.click;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.RangeReader;

/** Just enough of a WAV file for the bench: PCM of 16 or 24 bits, held in memory. */
public record BenchWav(AudioFormat format, double[][] samples) implements RangeReader {

  public static BenchWav read(Path file) throws IOException {
    ByteBuffer in = ByteBuffer.wrap(Files.readAllBytes(file)).order(ByteOrder.LITTLE_ENDIAN);
    int at = 12;
    AudioFormat format = null;
    for (; ; ) {
      int id = in.getInt(at);
      int size = in.getInt(at + 4);
      if (id == 0x20746d66) {
        format = AudioFormat.pcm(in.getInt(at + 12), in.getShort(at + 10), in.getShort(at + 22));
      } else if (id == 0x61746164) {
        int bytes = format.bytesPerSample();
        int frames = size / format.bytesPerFrame();
        double[][] x = new double[format.channels()][frames];
        int p = at + 8;
        for (int n = 0; n < frames; n++) {
          for (double[] c : x) {
            int v = 0;
            for (int b = 0; b < bytes; b++) {
              v |= (in.get(p++) & 0xff) << (8 * (b + 4 - bytes));
            }
            c[n] = v * 0x1p-31;
          }
        }
        return new BenchWav(format, x);
      }
      at += 8 + size + (size & 1);
    }
  }

  public void write(Path file) throws IOException {
    int frames = samples[0].length;
    int data = frames * 3 * samples.length;
    ByteBuffer out = ByteBuffer.allocate(44 + data).order(ByteOrder.LITTLE_ENDIAN);
    out.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(36 + data);
    out.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16).putShort((short) 1);
    out.putShort((short) samples.length).putInt(format.sampleRateHz());
    out.putInt(format.sampleRateHz() * 3 * samples.length);
    out.putShort((short) (3 * samples.length)).putShort((short) 24);
    out.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(data);
    for (int n = 0; n < frames; n++) {
      for (double[] c : samples) {
        long v = Math.max(-(1 << 23), Math.min((1 << 23) - 1, Math.round(c[n] * 0x1p23)));
        out.put((byte) v).put((byte) (v >> 8)).put((byte) (v >> 16));
      }
    }
    Files.write(file, out.array());
  }

  @Override
  public long frames() {
    return samples[0].length;
  }

  @Override
  public void read(long firstFrame, int count, double[][] into) {
    for (int c = 0; c < samples.length; c++) {
      System.arraycopy(samples[c], (int) firstFrame, into[c], 0, count);
    }
  }

  public BenchWav copy() {
    return new BenchWav(
        format, Arrays.stream(samples).map(double[]::clone).toArray(double[][]::new));
  }
}
