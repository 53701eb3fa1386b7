package org.groovemend.walls;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.SignalStage;
import org.groovemend.stage.StageNotPossibleException;

/**
 * Makes one signal of the two walls of a mono groove, in both channels.
 *
 * <p>Each wall is shifted by half the delay (so that neither is the measure of time), an opposed
 * right wall is turned round. Half the sum then holds the music as the walls have it on average. Of
 * the balanced difference, which holds no music, an octave and passage at a time, that part is
 * added which makes the noise least: {@link PassageWeights}. No frequency of the music is touched
 * by the weights, so there is no comb and no change of tone when they change.
 */
public final class MonoStage implements SignalStage {
  private static final int SEGMENT_SECONDS = 6;

  private final MonoParameters parameters;
  private final WallFinding finding;

  private MonoStage(MonoParameters parameters, WallFinding finding) {
    this.parameters = parameters;
    this.finding = finding;
  }

  /**
   * The stage for a side.
   *
   * @param finding of that side
   * @throws StageNotPossibleException if the side does not hold one signal and is not to be treated
   *     in any case; the message is a sentence for people
   */
  public static MonoStage of(MonoParameters parameters, WallFinding finding) {
    Verdict verdict = finding.verdict();
    if (verdict == Verdict.ONE_CHANNEL || verdict == Verdict.SILENT) {
      throw new StageNotPossibleException(
          "the mono stage has nothing to join: " + lower(finding.reason()));
    }
    if (!verdict.mono() && parameters.when() == MonoParameters.When.JUDGED) {
      throw new StageNotPossibleException(
          String.format(
              Locale.ROOT,
              "the mono stage left the walls apart (%s, confidence %.0f %%): %s Say when: always in the treatment if the disc is"
                  + " mono all the same",
              verdict.key().replace('_', ' '),
              100 * finding.confidence(),
              lower(finding.reason())));
    }
    return new MonoStage(parameters, finding);
  }

  private static String lower(String sentence) {
    return sentence.substring(0, 1).toLowerCase(Locale.ROOT) + sentence.substring(1);
  }

  /** Middles of the octaves that the weights are told for, in hertz. */
  public static List<Double> octaveCentres(int count) {
    List<Double> centres = new ArrayList<>();
    for (int b = 0; b < count; b++) {
      centres.add(OctaveBands.centreHertz(b));
    }
    return centres;
  }

  @Override
  public MonoParameters parameters() {
    return parameters;
  }

  public WallFinding finding() {
    return finding;
  }

  /** Whether both channels come out the same. */
  @Override
  public boolean joinsChannels() {
    return parameters.result() == MonoParameters.Result.COMBINED;
  }

  @Override
  public Segmentation segmentation(AudioFormat format) {
    int rate = format.sampleRateHz();
    WallFrames frames = WallFrames.of(rate);
    int reach = MonoWorker.reach(rate, finding.delay().largest());
    int passages = 2 * frames.framesIn(parameters.passageSeconds()) + 2;
    int context = reach + passages * frames.hop();
    return new Segmentation(
        Math.max(1 << 16, Integer.highestOneBit(SEGMENT_SECONDS * rate)), context, context);
  }

  @Override
  public boolean neutral() {
    return parameters.isNeutral();
  }

  @Override
  public Worker open(AudioFormat format) {
    if (format.channels() != 2) {
      throw new IllegalArgumentException(format.channels() + " channels, not 2");
    }
    return new MonoWorker(parameters, finding, format.sampleRateHz(), segmentation(format));
  }
}
