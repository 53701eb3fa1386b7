package org.groovemend.job.restore;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.report.Fact;
import org.groovemend.report.StageAccount;
import org.groovemend.rumble.RumbleFinding;
import org.groovemend.rumble.RumbleTaken;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;

/** What lies low, in words for the page. */
final class RumblePage {

  private RumblePage() {}

  /** What was measured before. */
  static List<Fact> found(RumbleFinding rumble) {
    List<Fact> facts = new ArrayList<>();
    facts.add(
        new Fact(
            hertz("Below %.0f Hz", rumble.bandLowHertz()),
            SideFindings.db(rumble.lowDbfs()),
            "dBFS",
            String.format(
                Locale.ROOT,
                "Offset, warp and rumble, moments of half a second that 10 %% are louder than; loud music is %s dBFS. %s",
                SideFindings.db(rumble.loudDbfs()),
                rumble.reason())));
    if (Double.isFinite(rumble.verticalBandDbfs())) {
      facts.add(
          new Fact(
              String.format(
                  Locale.ROOT,
                  "Vertical bass, %.0f to %.0f Hz",
                  rumble.bandLowHertz(),
                  rumble.bandHighHertz()),
              SideFindings.db(rumble.verticalBandDbfs()),
              "dBFS",
              String.format(
                  Locale.ROOT,
                  "Half the difference of the channels, likewise; without music %s, the lateral bass %s dBFS.",
                  SideFindings.db(rumble.verticalQuietDbfs()),
                  SideFindings.db(rumble.lateralBandDbfs()))));
    }
    return facts;
  }

  /**
   * What was done.
   *
   * @param taken null if nothing was
   */
  static StageAccount account(
      StageParameters parameters,
      RumbleFinding found,
      RumbleTaken taken,
      long frames,
      AudioFormat format) {
    boolean some = taken != null;
    return new StageAccount(
        StageAccounts.name(StageId.RUMBLE),
        true,
        some ? found.reason() + " " + inWords(taken) : found.reason() + " Nothing was changed.",
        SideFindings.ofSettings(parameters),
        some ? -1 : 0,
        some ? frames * format.channels() : 0,
        some ? format.seconds(frames) : 0,
        some ? taken.removedRmsDbfs() : Double.NaN,
        some ? taken.removedPeakDbfs() : Double.NaN);
  }

  /** Levels before and after, offset, peak and headroom. */
  static String inWords(RumbleTaken taken) {
    StringBuilder text = new StringBuilder("Levels before and after: ");
    for (RumbleTaken.Band band : taken.bands()) {
      text.append(
          String.format(
              Locale.ROOT,
              "%s %s %s, %s dBFS; ",
              band.part(),
              band.lowHertz() == 0
                  ? hertz("below %.0f Hz", band.highHertz())
                  : String.format(
                      Locale.ROOT, "%.0f to %.0f Hz", band.lowHertz(), band.highHertz()),
              SideFindings.db(band.beforeDbfs()),
              SideFindings.db(band.afterDbfs())));
    }
    int channels = taken.channels().size();
    for (int c = 0; c < channels; c++) {
      RumbleTaken.Channel channel = taken.channels().get(c);
      text.append(
          String.format(
              Locale.ROOT,
              "offset%s %.4f %%, %.4f %%, peak %s, %s dBFS; ",
              SideFindings.wall(c, channels),
              100 * channel.offsetBefore(),
              100 * channel.offsetAfter(),
              SideFindings.db(channel.peakBeforeDbfs()),
              SideFindings.db(channel.peakAfterDbfs())));
    }
    return text.append(headroom(taken.headroomDb())).append('.').toString();
  }

  private static String headroom(double db) {
    return Double.isInfinite(db)
        ? "nothing is left, all of it lay below the corner"
        : String.format(
            Locale.ROOT, "headroom %s: %.2f dB", db < 0 ? "lost" : "regained", Math.abs(db));
  }

  private static String hertz(String words, double hertz) {
    return String.format(Locale.ROOT, words, hertz);
  }
}
