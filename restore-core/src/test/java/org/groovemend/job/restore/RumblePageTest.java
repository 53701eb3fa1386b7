package org.groovemend.job.restore;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.report.Fact;
import org.groovemend.report.StageAccount;
import org.groovemend.rumble.RumbleFinding;
import org.groovemend.rumble.RumbleParameters;
import org.groovemend.rumble.RumbleTaken;
import org.junit.jupiter.api.Test;

class RumblePageTest {

  private static RumbleTaken taken(double headroomDb) {
    return new RumbleTaken(
        List.of(
            new RumbleTaken.Channel(0.01, 0, -3, -5), new RumbleTaken.Channel(-0.005, 0, -4, -5)),
        List.of(
            new RumbleTaken.Band("lateral", 0, 20, -40, -90),
            new RumbleTaken.Band("vertical", 20, 80, -50, Double.NEGATIVE_INFINITY)),
        headroomDb,
        -30,
        -20);
  }

  private static RumbleFinding finding(boolean some, double verticalDbfs) {
    return new RumbleFinding(-15, -30, 20, 80, -25, verticalDbfs, -60, some, false, "Reason.");
  }

  @Test
  void everyFigureIsTold() {
    assertThat(RumblePage.inWords(taken(2.25)))
        .isEqualTo(
            "Levels before and after: lateral below 20 Hz -40.0, -90.0 dBFS; vertical 20 to 80 Hz -50.0, -inf dBFS; "
                + "offset, left 1.0000 %, 0.0000 %, peak -3.0, -5.0 dBFS; "
                + "offset, right -0.5000 %, 0.0000 %, peak -4.0, -5.0 dBFS; headroom regained: 2.25 dB.");
    assertThat(RumblePage.inWords(taken(-0.5))).contains("headroom lost: 0.50 dB");
    assertThat(RumblePage.inWords(taken(Double.POSITIVE_INFINITY))).contains("nothing is left");
  }

  @Test
  void whereNothingIsTakenThePageSaysSo() {
    AudioFormat format = AudioFormat.pcm(48_000, 2, 24);
    RumbleParameters p = RumbleParameters.defaults();
    StageAccount none = RumblePage.account(p, finding(false, -50), null, 48_000, format);
    assertThat(none.sentence()).isEqualTo("Reason. Nothing was changed.");
    assertThat(none.samplesChanged()).isZero();
    StageAccount some = RumblePage.account(p, finding(true, -50), taken(1), 48_000, format);
    assertThat(some.sentence()).startsWith("Reason. Levels before and after");
    assertThat(some.samplesChanged()).isEqualTo(96_000);
    assertThat(some.settings()).extracting(Fact::value).contains("judged");
  }

  @Test
  void aSideWithoutVerticalPartHasNoLineForIt() {
    assertThat(RumblePage.found(finding(true, -50))).hasSize(2);
    assertThat(RumblePage.found(finding(true, Double.NEGATIVE_INFINITY))).hasSize(1);
  }
}
