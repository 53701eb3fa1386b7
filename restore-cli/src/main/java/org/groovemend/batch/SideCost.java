package org.groovemend.batch;

import java.util.Collection;
import java.util.Locale;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.job.restore.ReportWish;
import org.groovemend.job.restore.Treatment;
import org.groovemend.stage.StageId;

/**
 * How long a side takes, and how much room and memory: rough beforehand, from the length of its
 * file alone; time is put right by what sides of earlier runs took.
 */
public final class SideCost {

  private static final double MEGA = 1e6;

  /** Words of a transfer are mostly 24 bits. */
  private static final double BYTES_PER_SAMPLE = 3;

  /** Bytes of a FLAC file for each sample (common practice, no source: about 60 % of 24 bits). */
  private static final double FLAC_BYTES_PER_SAMPLE = 1.8;

  /** Seconds of one thread for each million samples, read and written only. */
  private static final double BASE = 0.08;

  /**
   * Seconds of one thread for each million samples, by stage; of the order of the table in
   * docs/explanation/performance.md (worn side, 57.6 million samples: 32.6, 37.0, 64.0 s).
   */
  private static final Map<StageId, Double> BY_STAGE =
      Map.of(
          StageId.CLICKS, 0.45,
          StageId.CRACKLE, 0.45,
          StageId.THUMPS, 0.08,
          StageId.HUM, 0.2,
          StageId.RUMBLE, 0.1,
          StageId.CURVE, 0.1,
          StageId.MONO, 0.1,
          StageId.NOISE, 0.45);

  /** Page without clips, and clips, in seconds and bytes; measured on short sides. */
  private static final double PAGE_SECONDS = 0.6;

  private static final double CLIPS_SECONDS = 1.6;
  private static final long PAGE_BYTES = 1_000_000;
  private static final long CLIPS_BYTES = 15_000_000;

  /** Clean copy and ledger are no larger than this besides the samples. */
  private static final long MARGIN_BYTES = 1 << 20;

  private static final long MEBI = 1 << 20;

  private final double factor;
  private final ReportWish page;

  /**
   * @param known sides of earlier runs
   */
  SideCost(Collection<SideRow> known, ReportWish page) {
    double expected = 0;
    double took = 0;
    for (SideRow row : known) {
      // sides whose results were there already took no time
      if (row.state() == SideState.DONE && row.expectedSeconds() > 0 && row.seconds() > 0) {
        expected += row.expectedSeconds();
        took += row.seconds();
      }
    }
    // expectations in the catalogue are as they were said, so the factor corrects the first guess
    this.factor = expected > 0 ? Math.min(20, Math.max(0.05, took / expected)) : 1;
    this.page = page;
  }

  private static double samples(FoundSide found) {
    boolean flac = found.place().toLowerCase(Locale.ROOT).endsWith(".flac");
    return Math.max(0, found.bytes()) / (flac ? FLAC_BYTES_PER_SAMPLE : BYTES_PER_SAMPLE);
  }

  /** Seconds of one thread as a first guess, which is what the catalogue keeps. */
  double guessedSeconds(SideOrder order) {
    double rate = BASE;
    for (StageId stage : order.treatment().stages()) {
      rate += BY_STAGE.get(stage);
    }
    double pages =
        switch (page) {
          case NONE -> 0;
          case WITHOUT_CLIPS -> PAGE_SECONDS;
          case WITH_CLIPS -> PAGE_SECONDS + CLIPS_SECONDS;
        };
    return 0.05 + pages + samples(order.found()) / MEGA * rate;
  }

  /** What earlier sides took for each second that was guessed; 1 if there are none. */
  double factor() {
    return factor;
  }

  /** Bytes of all results, rather too many than too few. */
  long bytes(SideOrder order) {
    return bytes(samples(order.found()) * BYTES_PER_SAMPLE, order.treatment(), page);
  }

  /** The same once the format is known. */
  public static long bytes(AudioFormat format, long frames, Treatment treatment, ReportWish page) {
    return bytes((double) format.bytesPerFrame() * frames, treatment, page);
  }

  private static long bytes(double samplesBytes, Treatment treatment, ReportWish page) {
    boolean whole =
        treatment.stages().stream()
            .anyMatch(
                stage ->
                    stage != StageId.CLICKS && stage != StageId.CRACKLE && stage != StageId.THUMPS);
    long pages =
        switch (page) {
          case NONE -> 0;
          case WITHOUT_CLIPS -> PAGE_BYTES;
          case WITH_CLIPS -> PAGE_BYTES + CLIPS_BYTES;
        };
    return (long) (samplesBytes * (whole ? 1.7 : 1.05)) + pages + MARGIN_BYTES;
  }

  /**
   * Bytes of memory that a side needs at a time; see docs/explanation/performance.md: windows of
   * all stages, which grow with rate, channels and threads, not with length.
   *
   * @param hands threads at work on it
   */
  public static long memory(AudioFormat format, Treatment treatment, int hands) {
    double width = format.sampleRateHz() * format.channels() / 192_000.0;
    double stages = treatment.stages().size() <= 3 ? 1 : 1.4;
    return (long) (MEBI * (40 + width * stages * (90 + 90.0 * hands)));
  }
}
