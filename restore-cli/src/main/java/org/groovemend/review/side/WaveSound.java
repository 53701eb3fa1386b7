package org.groovemend.review.side;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import org.groovemend.audio.AudioFormat;
import org.groovemend.chain.Quantiser;

/** A short sound as a WAV file in memory: PCM of 16 bits with triangular dither (RIFF, 1991). */
final class WaveSound {

  private static final int BITS = 16;
  private static final int HEADER = 44;

  private WaveSound() {}

  /**
   * Raised, faded in and out as a squared sine, and dithered.
   *
   * @param sound {@code [channel][frame]}, full scale 1.0; raised it must stay below that
   * @param fadeSeconds at either end, but at most half of the sound
   * @param seed of the dither
   */
  static byte[] bytes(double[][] sound, double gainDb, double fadeSeconds, int rate, long seed) {
    int channels = sound.length;
    int frames = sound[0].length;
    AudioFormat format = AudioFormat.pcm(rate, channels, BITS);
    Quantiser quantiser = new Quantiser(format, seed);
    double gain = Double.isFinite(gainDb) ? StrictMath.pow(10, gainDb / 20) : 1;
    int fade = (int) Math.min(frames / 2, format.frames(fadeSeconds));
    long[][] words = new long[channels][frames];
    double[] samples = new double[frames];
    for (int c = 0; c < channels; c++) {
      for (int i = 0; i < frames; i++) {
        samples[i] = gain * fade(i, frames, fade) * sound[c][i];
      }
      quantiser.quantise(c, 0, samples, frames, words[c]);
    }
    int data = frames * format.bytesPerFrame();
    ByteBuffer out = ByteBuffer.allocate(HEADER + data).order(ByteOrder.LITTLE_ENDIAN);
    id(out, "RIFF").putInt(HEADER - 8 + data);
    id(out, "WAVE");
    id(out, "fmt ").putInt(16).putShort((short) 1).putShort((short) channels).putInt(rate);
    out.putInt(rate * format.bytesPerFrame());
    out.putShort((short) format.bytesPerFrame()).putShort((short) BITS);
    id(out, "data").putInt(data);
    for (int i = 0; i < frames; i++) {
      for (int c = 0; c < channels; c++) {
        out.putShort((short) words[c][i]);
      }
    }
    return out.array();
  }

  private static ByteBuffer id(ByteBuffer out, String id) {
    return out.put(id.getBytes(StandardCharsets.US_ASCII));
  }

  private static double fade(int at, int frames, int length) {
    int fromEnd = Math.min(at, frames - 1 - at);
    if (fromEnd >= length) {
      return 1;
    }
    double s = StrictMath.sin(Math.PI / 2 * (fromEnd + 0.5) / length);
    return s * s;
  }
}
