package org.groovemend.job.inspect;

import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.rotation.RotationFinding;
import org.groovemend.rotation.RotationSearch;
import org.groovemend.transfer.BandEdge;
import org.groovemend.transfer.BandEdgeFinder;
import org.groovemend.transfer.BlockMeter;
import org.groovemend.transfer.Clipping;
import org.groovemend.transfer.ClippingMeter;
import org.groovemend.transfer.FineSpectrum;
import org.groovemend.transfer.HeadroomMeter;
import org.groovemend.transfer.InterruptionSearch;
import org.groovemend.transfer.Interruptions;
import org.groovemend.transfer.Offset;
import org.groovemend.transfer.OffsetMeter;
import org.groovemend.transfer.TickMeter;
import org.groovemend.transfer.Ticks;
import org.groovemend.transfer.TurnRepeat;
import org.groovemend.transfer.TurnRepeats;
import org.groovemend.transfer.WordMeter;
import org.groovemend.transfer.WordTruth;

/** The meters of room transfer over one side, in one pass. */
final class TransferMeters {
  private final InterruptionSearch interruptions;
  private final ClippingMeter clipping;
  private final OffsetMeter offset;
  private final HeadroomMeter headroom;
  private final WordMeter words;
  private final FineSpectrum spectrum;
  private final TickMeter ticks;
  private final TurnRepeats repeats;

  TransferMeters(AudioFormat format, long frames) {
    int rate = format.sampleRateHz();
    int channels = format.channels();
    interruptions = new InterruptionSearch(format, frames);
    clipping = new ClippingMeter(rate, channels);
    offset = new OffsetMeter(rate, channels, frames);
    headroom = new HeadroomMeter(rate, channels);
    words = new WordMeter(format);
    spectrum = new FineSpectrum(rate, channels);
    ticks = new TickMeter(rate, channels);
    repeats = new TurnRepeats(rate);
  }

  /** In groups of about equal work, so that several hands have something to do. */
  List<BlockMeter> meters() {
    return List.of(
        (w, x, n) -> {
          interruptions.accept(w, x, n);
          headroom.accept(w, x, n);
        },
        (w, x, n) -> {
          clipping.accept(w, x, n);
          offset.accept(w, x, n);
          words.accept(w, x, n);
        },
        (w, x, n) -> {
          spectrum.accept(w, x, n);
          ticks.accept(w, x, n);
        },
        repeats);
  }

  FineSpectrum spectrum() {
    return spectrum;
  }

  TickMeter tickMeter() {
    return ticks;
  }

  /** After the last block. */
  Result finish() {
    Ticks counted = ticks.finish();
    return new Result(
        interruptions.finish(),
        clipping.finish(),
        offset.finish(),
        headroom.finish(),
        words.finish(),
        BandEdgeFinder.find(spectrum),
        counted,
        RotationSearch.of(ticks.gatherer()),
        repeats.finish());
  }

  /**
   * What they measured.
   *
   * @param musicPeak of what lasts, full scale 1.0
   */
  record Result(
      Interruptions interruptions,
      List<Clipping> clipping,
      List<Offset> offsets,
      double musicPeak,
      WordTruth words,
      BandEdge edge,
      Ticks ticks,
      RotationFinding rotation,
      List<TurnRepeat> repeats) {}
}
