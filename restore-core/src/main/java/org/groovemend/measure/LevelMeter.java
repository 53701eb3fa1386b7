package org.groovemend.measure;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;

/** Measures a side in one pass, block by block; memory does not depend on its length. */
public final class LevelMeter {

  private static final int CLIPPED_RUN = 3;
  private static final double NEAR_PEAK = 0.999;

  /**
   * -60 dB: nothing is overloaded so far down, flat tops are those of coarse words (common
   * practice, no source).
   */
  private static final double LOWEST_CLIPPING = 0.001;

  private final AudioFormat format;
  private final Channel[] channels;
  private long frames;
  private long everSet;
  private long silenceStart = -1;
  private long longestSilence;
  private long longestSilenceStart;
  private long leadingSilence;
  private long trailingSilence;
  private long longestInnerSilence;
  private long longestInnerSilenceStart;

  public LevelMeter(AudioFormat format) {
    this.format = format;
    channels = new Channel[format.channels()];
    for (int c = 0; c < channels.length; c++) {
      channels[c] = new Channel();
    }
  }

  /** Adds {@code count} frames, given both as words and as doubles. */
  public void accept(long[][] words, double[][] samples, int count) {
    for (int c = 0; c < channels.length; c++) {
      channels[c].accept(samples[c], count, frames);
      long set = everSet;
      long[] channel = words[c];
      for (int i = 0; i < count; i++) {
        set |= channel[i];
      }
      everSet = set;
    }
    measureSilence(words, count);
    frames += count;
  }

  private void measureSilence(long[][] words, int count) {
    long[] first = words[0];
    long[] last = words[words.length - 1];
    for (int i = 0; i < count; i++) {
      if ((first[i] | last[i]) != 0) {
        if (silenceStart >= 0) {
          endSilence(frames + i, false);
        }
      } else if (silenceStart < 0) {
        silenceStart = frames + i;
      }
    }
  }

  private void endSilence(long end, boolean last) {
    long length = end - silenceStart;
    if (silenceStart == 0) {
      leadingSilence = length;
    } else if (!last && length > longestInnerSilence) {
      longestInnerSilence = length;
      longestInnerSilenceStart = silenceStart;
    }
    if (last) {
      trailingSilence = length;
    }
    if (end - silenceStart > longestSilence) {
      longestSilence = end - silenceStart;
      longestSilenceStart = silenceStart;
    }
    silenceStart = -1;
  }

  public SideLevels finish() {
    if (silenceStart >= 0) {
      endSilence(frames, true);
    }
    List<ChannelLevels> levels = new ArrayList<>();
    for (Channel channel : channels) {
      levels.add(channel.finish(frames));
    }
    int used = format.containerBits();
    if (format.coding() == SampleCoding.PCM) {
      used = everSet == 0 ? 0 : format.containerBits() - Long.numberOfTrailingZeros(everSet);
    }
    return new SideLevels(
        List.copyOf(levels),
        used,
        longestSilence,
        longestSilenceStart,
        leadingSilence,
        trailingSilence,
        longestInnerSilence,
        longestInnerSilenceStart);
  }

  private static final class Channel {
    private double peak;
    private double previous = Double.NaN;
    private int run;
    private long runs;
    private int longest;
    private long firstRun = -1;
    private double runPeak;
    // compensated sums: an hour at 192 kHz adds 7e8 terms
    private final CompensatedSum sum = new CompensatedSum();
    private final CompensatedSum squares = new CompensatedSum();

    void accept(double[] x, int count, long start) {
      double blockSum = 0;
      double blockSquares = 0;
      for (int i = 0; i < count; i++) {
        double value = x[i];
        blockSum += value;
        blockSquares += value * value;
        double magnitude = Math.abs(value);
        if (magnitude > peak) {
          peak = magnitude;
        }
        if (value == previous && magnitude >= NEAR_PEAK * peak && magnitude > 0) {
          run++;
          if (run == CLIPPED_RUN) {
            countRun(magnitude, start + i - CLIPPED_RUN + 1);
          }
          if (run > longest && run >= CLIPPED_RUN) {
            longest = run;
          }
        } else {
          run = 1;
        }
        previous = value;
      }
      sum.add(blockSum);
      squares.add(blockSquares);
    }

    private void countRun(double magnitude, long at) {
      // what was counted near a lower peak was not clipping
      if (runs > 0 && runPeak < NEAR_PEAK * magnitude) {
        runs = 0;
        longest = 0;
        firstRun = -1;
      }
      runPeak = magnitude;
      runs++;
      if (firstRun < 0) {
        firstRun = at;
      }
    }

    ChannelLevels finish(long frames) {
      boolean stands = runs > 0 && runPeak >= NEAR_PEAK * peak && runPeak >= LOWEST_CLIPPING;
      return new ChannelLevels(
          Decibels.ofAmplitude(peak),
          frames == 0 ? Double.NEGATIVE_INFINITY : Decibels.ofPower(squares.value() / frames),
          frames == 0 ? 0 : sum.value() / frames,
          stands ? runs : 0,
          stands ? longest : 0,
          stands ? firstRun : -1);
    }
  }
}
