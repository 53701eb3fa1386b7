package org.groovemend.click;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.LongPredicate;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.SegmentWindow;

/**
 * Candidates of a window, by blocks on the side's own grid. One instance per thread.
 *
 * <p>The signal of the repair domain is made in chunks that begin at fixed frame numbers, each from
 * rest a hop earlier, so that it does not depend on where the window begins.
 */
final class ClickDetector {
  private final ClickGeometry g;
  private final RepairDomain domain;
  private final double floor;
  private final int pad;
  private final BlockDetector blocks;
  private final PulseTrain trains;
  private double[][] flat = new double[0][];
  private double[][] clean = new double[0][];
  private double[] scratch = new double[0];
  private long first;
  private long validFrom;
  private long validTo;
  private long sideFrames;
  private boolean atEnd;

  ClickDetector(ClickGeometry g, RepairDomain domain, AudioFormat format) {
    this.g = g;
    this.domain = domain;
    this.floor = domain.floor(format.quantumStep());
    this.pad = 4 * g.hop();
    this.trains = new PulseTrain(format.sampleRateHz());
    this.blocks = new BlockDetector(g, format.sampleRateHz());
  }

  /** Takes the samples over into the repair domain. */
  void load(SegmentWindow w) {
    int channels = w.channels();
    int needed = w.length() + 2 * pad;
    if (flat.length != channels || flat[0].length < needed) {
      flat = new double[channels][needed];
      clean = new double[channels][needed];
      scratch = new double[needed];
    }
    first = w.firstFrame();
    int hop = g.hop();
    int chunk = 4 * hop;
    validFrom = first == 0 ? 0 : (first + hop + chunk - 1) / chunk * chunk;
    validTo = first + w.length();
    sideFrames = w.sideFrames();
    atEnd = validTo == w.sideFrames();
    for (int c = 0; c < channels; c++) {
      Arrays.fill(flat[c], 0);
      for (long f = validFrom; f < validTo; f += chunk) {
        int from = (int) (f - first);
        int to = (int) (Math.min(f + chunk, validTo) - first);
        domain.undo(w.samples()[c], from, to, Math.min(from, hop), scratch, flat[c], from + pad);
      }
      System.arraycopy(flat[c], 0, clean[c], 0, flat[c].length);
    }
  }

  int index(long frame) {
    return (int) (frame - first) + pad;
  }

  /** Frame of an index. */
  long frame(int index) {
    return index - pad + first;
  }

  int validFrom() {
    return index(validFrom);
  }

  int validTo() {
    return index(validTo);
  }

  double[] flat(int channel) {
    return flat[channel];
  }

  /** The same with all that was found so far filled: what the next look sees. */
  double[] clean(int channel) {
    return clean[channel];
  }

  /**
   * Candidates of one channel in the blocks that touch [from, to), as far as the window reaches, in
   * order of start.
   */
  List<Candidate> candidates(int channel, long from, long to) {
    return candidates(channel, from, to, block -> true);
  }

  /** The same in the blocks, named by their first frame, that are wanted. */
  List<Candidate> candidates(int channel, long from, long to, LongPredicate wanted) {
    List<Candidate> found = new ArrayList<>();
    int hop = g.hop();
    for (long block = Math.floorDiv(from, hop) * hop; block < to; block += hop) {
      if (!reachable(block) || !wanted.test(block)) {
        continue;
      }
      blocks.find(
          clean[channel],
          flat.length == 2 ? clean[1 - channel] : null,
          index(block),
          first - pad,
          channel,
          floor,
          found);
    }
    // the ends of the file are steps of its own making
    int edge = 2 * g.order();
    found.removeIf(k -> k.start() < edge || k.end() > sideFrames - edge);
    found.sort((p, q) -> Long.compare(p.start(), q.start()));
    return trains.judged(found);
  }

  /**
   * The same damage in the other channel, where it does not stand out by itself; null if it is not
   * there.
   */
  Candidate otherWall(Candidate k) {
    long block = Math.floorDiv(k.start(), (long) g.hop()) * g.hop();
    if (!reachable(block)) {
      return null;
    }
    int at = index(k.start());
    double[] pulse = new double[k.length()];
    for (int i = 0; i < pulse.length; i++) {
      pulse[i] = clean[k.channel()][at + i] - k.fill()[i];
    }
    int other = 1 - k.channel();
    return blocks.match(clean[other], index(block), first - pad, other, floor, k.start(), pulse);
  }

  private boolean reachable(long block) {
    int hop = g.hop();
    boolean early = block - hop / 2 < validFrom && validFrom > 0;
    boolean late = block + 3L * hop / 2 > validTo && !atEnd;
    return !(block < 0 || early || late || block >= validTo);
  }
}
