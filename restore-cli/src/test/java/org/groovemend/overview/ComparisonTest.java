package org.groovemend.overview;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.MappingIterator;
import com.fasterxml.jackson.dataformat.csv.CsvMapper;
import com.fasterxml.jackson.dataformat.csv.CsvSchema;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import javax.xml.parsers.DocumentBuilderFactory;
import org.groovemend.batch.Catalogue;
import org.groovemend.batch.InventedCatalogue;
import org.groovemend.report.Fact;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ComparisonTest {

  @TempDir private Path dir;

  private Overview overview(int sides) throws IOException {
    InventedCatalogue.write(dir, sides);
    try (Catalogue catalogue = Catalogue.read(dir.resolve(Catalogue.NAME))) {
      return Overview.of(
          catalogue,
          new OverviewRequest(
              dir,
              0.95,
              0.05,
              1,
              50,
              20,
              "test",
              Instant.parse("2026-03-02T06:00:00Z"),
              ledger -> "groovemend review " + ledger));
    }
  }

  /** Values of {@code scipy.stats.median_abs_deviation(x, scale="normal")}. */
  @Test
  void spreadIsTheMedianAbsoluteDeviationOfAnIndependentLibrary() {
    Spread even = Spread.of(new double[] {11, 100, 1, 4, 2, 7}, 0.1);
    assertThat(even.median()).isEqualTo(5.5);
    assertThat(even.spread()).isCloseTo(5.930408874022408, within(1e-12));
    Spread odd = Spread.of(new double[] {3, 1, 4, 1, 5, 9, 2, 6, 5}, 0.1);
    assertThat(odd.median()).isEqualTo(4);
    assertThat(odd.spread()).isCloseTo(2.965204437011204, within(1e-12));
    assertThat(Spread.of(new double[] {3, 3, 3, 3}, 0.5).spread()).isEqualTo(0.5);
    assertThat(Spread.of(new double[0], 0.5).count()).isZero();
  }

  @Test
  void sumsAreSaidAsPeopleSayThem() throws IOException {
    Map<String, Fact> facts = new HashMap<>();
    for (Fact fact : OverviewSheet.of(overview(120)).sections().get(0).facts()) {
      facts.put(fact.label(), fact);
    }
    // 118 sides of about 3 minutes, 3.5 s of work each
    assertThat(facts.get("Sound done").value()).startsWith("5.");
    assertThat(facts.get("Sound done").unit()).isEqualTo("hours");
    assertThat(facts.get("Sound done").sentence())
        .isEqualTo("in 6.9 minutes of work of all threads together");
    assertThat(facts.get("Failed").sentence()).isEqualTo("The next run tries them again.");
    assertThat(facts.get("Last run").value()).isEqualTo("2026-03-01 12:00:00 UTC");
    assertThat(facts.get("Last run").sentence()).startsWith("ended 2026-03-01 12:00:00 UTC (over)");
  }

  @Test
  void theWorstAreThoseThatWereMadeToStandOut() throws IOException {
    Overview overview = overview(120);
    assertThat(overview.done()).isEqualTo(118);
    assertThat(overview.failed()).isEqualTo(1);
    assertThat(overview.left()).isEqualTo(1);
    Map<String, List<String>> told = new HashMap<>();
    overview.comparison().judged().subList(0, 3).stream()
        .forEach(one -> told.put(one.side().place(), one.reasons()));
    assertThat(told.keySet())
        .containsExactlyInAnyOrder(
            "shelf/box00/side 0005 ü.wav",
            "shelf/box00/side 0011 ü.wav",
            "shelf/box00/side 0017 ü.wav");
    assertThat(told.get("shelf/box00/side 0005 ü.wav").get(0)).contains("follow the beat: 6.20");
    assertThat(told.get("shelf/box00/side 0011 ü.wav").get(0)).contains("high noise floor");
    assertThat(told.get("shelf/box00/side 0017 ü.wav").get(0)).contains("left channel is louder");
    // what is told of sides that are as usual: at 3.5 standard deviations hardly any
    assertThat(overview.told()).isBetween(3L, 12L);
  }

  /** LPs have a floor 8 dB lower; against all sides at once they would be spread out of sight. */
  @Test
  void sidesAreComparedWithTheirSeries() throws IOException {
    Overview overview = overview(120);
    Comparison comparison = overview.comparison();
    int noise = Measure.NOISE.ordinal();
    assertThat(comparison.series().keySet()).containsExactlyInAnyOrder("lp", "shellac");
    assertThat(comparison.series().get("lp")[noise].median()).isCloseTo(-56, within(1.0));
    assertThat(comparison.series().get("shellac")[noise].median()).isCloseTo(-48, within(1.0));
    assertThat(comparison.whole()[noise].spread())
        .isGreaterThan(1.3 * comparison.series().get("lp")[noise].spread());
  }

  @Test
  void pageIsWellFormedAndTheTableHoldsEverySide() throws Exception {
    Overview overview = overview(120);
    OverviewFiles.write(overview);
    OverviewFiles.write(overview);
    Path page = dir.resolve(OverviewFiles.PAGE);
    DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(page.toFile());
    assertThat(Files.readString(page))
        .contains("It is &lt;no&gt; &quot;sound&quot;, but text.")
        .contains("Hear these 45 of 118 sides".replace("45", "" + overview.plan().heard()));
    try (MappingIterator<Map<String, String>> rows =
        new CsvMapper()
            .readerFor(Map.class)
            .with(CsvSchema.emptySchema().withHeader())
            .readValues(dir.resolve(OverviewFiles.TABLE).toFile())) {
      List<Map<String, String>> all = rows.readAll();
      assertThat(all).hasSize(120);
      assertThat(all.stream().filter(row -> row.get("hear").contains("random")))
          .hasSize(overview.plan().heard());
      assertThat(all.get(23)).containsEntry("state", "failed");
      assertThat(all.get(11).get("noise_before_dbfs_score").charAt(0)).isNotEqualTo('-');
    }
  }

  private static SideFigures side(int i, double repairs, double minutes, String... notes) {
    double[] values = new double[Measure.values().length];
    Arrays.fill(values, Double.NaN);
    values[Measure.REPAIRS.ordinal()] = repairs / minutes;
    values[Measure.LENGTH.ordinal()] = minutes;
    return new SideFigures(
        "p" + i, null, null, "", "done", null, null, "", "", null, values, 0, List.of(notes));
  }

  @Test
  void oneRepairAmongSidesWithoutAnyIsChanceAndManyAreNot() {
    List<SideFigures> sides = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      sides.add(side(i, 0, 1.5));
    }
    sides.add(side(20, 1, 1.5));
    sides.add(side(21, 12, 1.5));
    Comparison comparison = Comparison.of(sides);
    assertThat(comparison.judged().stream().filter(one -> !one.reasons().isEmpty()))
        .singleElement()
        .satisfies(one -> assertThat(one.side().place()).isEqualTo("p21"));
  }

  @Test
  void aRemarkOfMostSidesIsToldAndWeighsNothing() {
    List<SideFigures> sides = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      sides.add(i == 7 ? side(i, 0, 3, "all", "one") : side(i, 0, 3, "all"));
    }
    Comparison comparison = Comparison.of(sides);
    assertThat(comparison.told()).isEqualTo(1);
    assertThat(comparison.judged().get(0).side().place()).isEqualTo("p7");
    assertThat(comparison.judged().get(0).reasons()).containsExactly("one", "all");
    assertThat(comparison.judged().get(5).reasons()).containsExactly("all");
  }

  @Test
  void tooFewSidesAreNotCompared() throws IOException {
    Comparison comparison =
        Comparison.of(overview(40).figures().sides().subList(0, Comparison.FEWEST - 1));
    assertThat(comparison.judged()).allMatch(one -> one.reasons().isEmpty());
  }

  @Test
  void thePageStaysSmallHoweverLargeTheCollection() throws IOException {
    OverviewFiles.write(overview(2000));
    assertThat(Files.size(dir.resolve(OverviewFiles.PAGE))).isLessThan(400_000);
  }
}
