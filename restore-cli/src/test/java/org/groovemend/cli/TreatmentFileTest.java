package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.groovemend.job.restore.Treatment;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class TreatmentFileTest {

  private static Treatment parse(String text) {
    return TreatmentFile.parse(text, "mine.yaml");
  }

  private static String refusal(String text) {
    String message = assertThrows(UsageException.class, () -> parse(text)).getMessage();
    assertTrue(message.startsWith("mine.yaml"), "names the file: " + message);
    return message;
  }

  private static void refusedNaming(String text, String... words) {
    String message = refusal(text);
    for (String word : words) {
      assertTrue(message.contains(word), "\"" + word + "\" in: " + message);
    }
  }

  static Stream<Treatment> treatments() {
    return Stream.of(
        Treatment.defaults(),
        Treatment.gentle(),
        Treatment.defaults()
            .withCaptured(CaptureCurve.RIAA)
            .withStages(List.of(StageId.CLICKS))
            .withNoise(Treatment.defaults().noise().withReductionDb(1e-7)),
        new Treatment(
            CaptureCurve.FLAT,
            List.of(),
            Treatment.gentle().clicks(),
            Treatment.gentle().crackle(),
            Treatment.gentle().thumps(),
            Treatment.gentle().hum(),
            Treatment.gentle().rumble(),
            Treatment.gentle()
                .curve()
                .withApply("250/5/40")
                .withUndo("riaa")
                .withSpeeds(78.26, 45)
                .withReason("the label: \"see\" C:\\sleeve # 3"),
            Treatment.gentle().mono(),
            Treatment.gentle().noise(),
            Long.MIN_VALUE));
  }

  @ParameterizedTest
  @MethodSource("treatments")
  void whatIsPrintedReadsBackAsTheSameTreatment(Treatment treatment) {
    assertEquals(treatment, parse(TreatmentText.of(treatment)));
  }

  @ParameterizedTest
  @MethodSource("treatments")
  void whatIsWrittenInBriefReadsBackAsTheSameTreatment(Treatment treatment) {
    String brief = TreatmentText.brief(treatment);
    assertEquals(treatment, TreatmentFile.parse(brief, "brief"), brief);
  }

  @ParameterizedTest
  @MethodSource("treatments")
  void whatIsPrintedFitsAScreen(Treatment treatment) {
    TreatmentText.of(treatment)
        .lines()
        .forEach(line -> assertTrue(line.length() <= 98, line.length() + ": " + line));
  }

  @Test
  void whatIsLeftOutKeepsItsDefault() {
    assertEquals(Treatment.defaults(), parse("treatment: 1\n"));
    Treatment lighter = parse("treatment: 1\nnoise:\n  reductionDb: 3\n");
    assertEquals(
        Treatment.defaults().withNoise(Treatment.defaults().noise().withReductionDb(3)), lighter);
  }

  @Test
  void anUnknownKeyIsRefusedWithTheNearestKnownOne() {
    refusedNaming("treatment: 1\nstagse: [clicks]\n", "\"stagse\"", "did you mean \"stages\"");
    refusedNaming(
        "treatment: 1\nclicks:\n  repairOrdre: 64\n",
        "\"clicks.repairOrdre\"",
        "did you mean \"repairOrder\"");
    refusedNaming("treatment: 1\nsomethingElse: 4\n", "\"somethingElse\"");
  }

  @Test
  void aValueOfTheWrongKindIsRefusedNamingTheSetting() {
    refusedNaming("treatment: 1\nnoise:\n  reductionDb: much\n", "noise", "reductionDb");
    refusedNaming("treatment: 1\nnoise:\n  reductionDb: \"8\"\n", "noise", "reductionDb");
    refusedNaming("treatment: 1\nnoise:\n  reductionDb:\n", "noise", "reductionDb");
    refusedNaming("treatment: 1\nnoise:\n  reductionDb: true\n", "noise", "reductionDb");
    refusedNaming("treatment: 1\nclicks:\n  repairOrder: 64.5\n", "clicks", "repairOrder");
    refusedNaming("treatment: 1\nclicks:\n  repairOrder: [64]\n", "clicks", "repairOrder");
    refusedNaming("treatment: 1\nclicks: 5\n", "clicks");
    refusedNaming("treatment: 1\nstages: clicks\n", "stages", "list");
    refusedNaming("treatment: 1\nditherSeed: 1.5\n", "ditherSeed");
    refusedNaming("treatment: 1\nditherSeed: 99999999999999999999\n", "ditherSeed", "64 bits");
  }

  @Test
  void aValueOutOfRangeIsRefusedWithTheRange() {
    refusedNaming(
        "treatment: 1\nnoise:\n  reductionDb: 61\n", "reductionDb", "61", "outside", "60");
    refusedNaming("treatment: 1\nclicks:\n  repairRounds: 0\n", "repairRounds", "1", "5");
    refusedNaming("treatment: 1\nclicks:\n  repairOrder: 4294967328\n", "repairOrder");
    refusedNaming("treatment: 1\nnoise:\n  reductionDb: .nan\n", "reductionDb");
    refusedNaming("treatment: 1\nnoise:\n  reductionDb: .inf\n", "reductionDb");
  }

  @Test
  void aValueAtTheEdgeOfItsRangeIsTaken() {
    assertEquals(60, parse("treatment: 1\nnoise:\n  reductionDb: 60\n").noise().reductionDb());
    assertEquals(1, parse("treatment: 1\nclicks:\n  repairRounds: 1\n").clicks().repairRounds());
  }

  @Test
  void anotherVersionOfTheFormIsRefused() {
    refusedNaming("treatment: 2\n", "treatment: 1", "says 2");
    refusedNaming("stages: [clicks]\n", "treatment: 1", "nothing");
    refusedNaming("treatment: \"1\"\n", "treatment: 1");
  }

  @Test
  void aKeyGivenTwiceIsRefusedWithItsLine() {
    refusedNaming("treatment: 1\ncaptured: riaa\ncaptured: flat\n", "line 3", "captured");
    refusedNaming(
        "treatment: 1\nnoise:\n  reductionDb: 3\n  reductionDb: 4\n", "line 4", "reductionDb");
  }

  @Test
  void yamlThatIsNoneIsRefusedWithItsLine() {
    refusedNaming("treatment: 1\nstages: [clicks\n", "line ");
    refusedNaming("treatment: 1\n\tstages: []\n", "line 2");
  }

  /**
   * In YAML 1.2 these are plain words (YAML 1.2.2, 10.3.2), so none may turn into false or true.
   */
  @ParameterizedTest
  @ValueSource(strings = {"no", "off", "yes", "on"})
  void wordsThatOlderYamlTookForBooleansStayWords(String word) {
    refusedNaming("treatment: 1\ncaptured: " + word + "\n", "\"" + word + "\" is not");
    refusedNaming("treatment: 1\nstages: [" + word + "]\n", "no stage \"" + word + "\"");
  }

  @Test
  void aNumberWithALeadingZeroIsRefusedAndNeverReadAsOctal() {
    // YAML 1.1 read 010 as eight; in the JSON schema of YAML 1.2.2 (10.2.2) it is no number
    refusedNaming("treatment: 1\nnoise:\n  reductionDb: 010\n", "reductionDb");
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "# only a comment\n", "---\n"})
  void anEmptyFileIsRefusedAndSaysWhereToGetOne(String text) {
    refusedNaming(text, "groovemend treatment");
  }

  @ParameterizedTest
  @ValueSource(strings = {"clicks", "[1, 2]", "42"})
  void aFileWithoutKeysIsRefused(String text) {
    refusal(text);
  }

  @Test
  void severalDocumentsAreRefused() {
    refusal("treatment: 1\n---\ntreatment: 1\n");
  }

  @Test
  void aTagThatNamesAClassMakesNoObject() {
    refusal("treatment: 1\nnoise: !!java.io.File [x]\n");
  }

  @Test
  void anUnknownStageOrCurveIsRefused() {
    refusedNaming("treatment: 1\nstages: [clisks]\n", "did you mean \"clicks\"");
    refusedNaming("treatment: 1\ncaptured: RIAA!\n", "riaa, flat or unknown");
  }

  @Test
  void aFileThatIsNotUtf8IsRefusedAndNamed(@TempDir Path dir) throws IOException {
    Path file = dir.resolve("latin.yaml");
    Files.write(file, new byte[] {'#', ' ', (byte) 0xe9, '\n'});
    String message =
        assertThrows(UsageException.class, () -> TreatmentFile.read(file)).getMessage();
    assertTrue(message.contains("latin.yaml") && message.contains("UTF-8"), message);
  }
}
