package org.groovemend.playback;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.signal.predict.ReferenceTable;
import org.junit.jupiter.api.Test;

/** Against fixtures/reference/playback; sources in the heads of the tables. */
class CurveTableReferenceTest {
  private static final String FOLDER = "/fixtures/reference/playback/";

  private static double number(String text) {
    return text.isEmpty() ? 0 : Double.parseDouble(text);
  }

  /** Half of the last printed digit: gains are printed to 0.001 dB. */
  @Test
  void everyRowOfTheHistoricalTableIsAChoice() throws IOException {
    List<String> seen = new ArrayList<>();
    for (List<String> row : ReferenceTable.rows(FOLDER + "historical_curves.csv")) {
      NamedCurve named = CurveTable.ofKey(row.get(0)).orElseThrow();
      seen.add(named.key());
      PlaybackCurve curve = named.curve();
      assertThat(curve.shelfMicroseconds()).isCloseTo(number(row.get(3)), within(0.0051));
      assertThat(curve.turnoverMicroseconds()).isCloseTo(number(row.get(5)), within(0.0051));
      assertThat(curve.trebleMicroseconds()).isCloseTo(number(row.get(10)), within(0.00051));
      assertThat(curve.gainDb(50)).as(row.get(0)).isCloseTo(number(row.get(11)), within(6e-4));
      assertThat(curve.gainDb(100)).as(row.get(0)).isCloseTo(number(row.get(12)), within(6e-4));
      assertThat(curve.gainDb(10_000)).as(row.get(0)).isCloseTo(number(row.get(14)), within(6e-4));
      // the table marks what is known and what from memory; a doubt stands where its pairs disagree
      String status = row.get(16);
      assertThat(named.status().name().charAt(0))
          .isEqualTo(status.equals("R2") ? 'C' : status.charAt(0));
      if (Math.abs(number(row.get(14)) - number(row.get(15))) > 0.3) {
        assertThat(named.doubt()).as(row.get(0)).isNotEmpty();
      }
    }
    assertThat(seen).isEqualTo(CurveTable.keys());
  }

  @Test
  void replayAmendmentHasItsOwnBass() throws IOException {
    PlaybackCurve iec = CurveTable.ofKey("iec-amended").orElseThrow().curve();
    for (List<String> row : ReferenceTable.rows(FOLDER + "riaa_playback.csv")) {
      assertThat(iec.gainDb(number(row.get(0)))).isCloseTo(number(row.get(6)), within(1e-6));
    }
  }

  /** AES-S001-064 as printed, rounded there to 0.25 dB; the disc falls 6 dB above 10 kHz. */
  @Test
  void calibrationDiscIsTheCoarseGrooveCurve() throws IOException {
    PlaybackCurve coarse = CurveTable.ofKey("coarse-iec").orElseThrow().curve();
    for (List<String> row : ReferenceTable.rows(FOLDER + "coarse_groove_calibration.csv")) {
      double hertz = number(row.get(0));
      double recorded = -coarse.gainDb(hertz) - (hertz > 10_000 ? 6 : 0);
      assertThat(recorded).isCloseTo(number(row.get(1)), within(0.125));
      assertThat(recorded).isCloseTo(number(row.get(2)), within(6e-4));
    }
  }

  @Test
  void constantsCornersAndRollOffs() throws IOException {
    for (List<String> row : ReferenceTable.rows(FOLDER + "eq_time_constants.csv")) {
      double us = number(row.get(1));
      // constants are printed to 0.0001, corners to 0.001
      double corner = number(row.get(2));
      assertThat(PlaybackCurve.hertz(us)).isCloseTo(corner, within(corner * 6e-5 / us + 6e-4));
      assertThat(PlaybackCurve.rollOffDb(us)).isCloseTo(number(row.get(3)), within(6e-5));
    }
    for (List<String> row : ReferenceTable.rows(FOLDER + "eq_rolloff_map.csv")) {
      assertThat(PlaybackCurve.trebleOf(number(row.get(0))))
          .isCloseTo(number(row.get(1)), within(6e-5));
    }
  }

  @Test
  void constantsGrowWithTheSpeedThatWasLost() throws IOException {
    for (List<String> row : ReferenceTable.rows(FOLDER + "eq_speed_scaling.csv")) {
      CurveParameters p =
          CurveParameters.defaults().withSpeeds(number(row.get(0)), number(row.get(1)));
      PlaybackCurve scaled = PlaybackCurve.MICROGROOVE.scaled(p.applyFactor());
      // speeds are printed to 0.0001
      assertThat(scaled.shelfMicroseconds()).isCloseTo(number(row.get(3)), within(0.02));
      assertThat(scaled.turnoverMicroseconds()).isCloseTo(number(row.get(4)), within(0.002));
      assertThat(scaled.trebleMicroseconds()).isCloseTo(number(row.get(5)), within(0.0005));
      assertThat(PlaybackCurve.hertz(scaled.turnoverMicroseconds()))
          .isCloseTo(number(row.get(6)), within(0.001));
      // what the electronics did is not scaled
      assertThat(p.undoFactor()).isEqualTo(1);
    }
  }

  @Test
  void aCurveIsReadByNameByCornersAndByConstants() {
    assertThat(ChosenCurve.of("RIAA").curve()).isEqualTo(PlaybackCurve.MICROGROOVE);
    assertThat(ChosenCurve.of("us:3180,318,75").curve()).isEqualTo(PlaybackCurve.MICROGROOVE);
    assertThat(ChosenCurve.of("us:-,318,-").curve()).isEqualTo(new PlaybackCurve(0, 318, 0));
    assertThat(ChosenCurve.of("400/-12/50").curve())
        .isEqualTo(CurveTable.ofKey("aes-1951").orElseThrow().curve());
    assertThat(ChosenCurve.of("500/16").curve()).isEqualTo(ChosenCurve.of("nab").curve());
    assertThat(ChosenCurve.of("0/0").curve().isFlat()).isTrue();
    assertThat(ChosenCurve.of("0/5").curve().turnoverMicroseconds()).isZero();
    assertThat(ChosenCurve.of("none").curve().isFlat()).isTrue();
  }

  @Test
  void whatIsNoCurveIsRefusedWithWhatIsWrong() {
    assertThatThrownBy(() -> ChosenCurve.of("riia"))
        .isInstanceOf(UnknownCurveException.class)
        .hasMessageContaining("\"riia\"");
    for (String text :
        List.of("500", "500/", "5000/12", "500/40", "500/12/600", "us:3180,318", "us:1,2,3")) {
      assertThatThrownBy(() -> ChosenCurve.of(text))
          .as(text)
          .isInstanceOf(IllegalArgumentException.class);
    }
  }
}
