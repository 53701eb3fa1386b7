package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import org.groovemend.job.restore.Treatment;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

/** The schema is judged by a validator that is none of ours. */
class TreatmentSchemaTest {

  private static final ObjectMapper JSON = new ObjectMapper();

  private static String printed(String... args) {
    StringWriter out = new StringWriter();
    var line = Main.commandLine();
    line.setOut(new PrintWriter(out));
    assertEquals(0, line.execute(args));
    return out.toString();
  }

  private static Set<?> complaints(String yaml) throws IOException {
    JsonSchema schema =
        JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
            .getSchema(printed("treatment", "--schema"));
    Object loaded = new Load(LoadSettings.builder().build()).loadFromString(yaml);
    JsonNode node = JSON.readTree(JSON.writeValueAsString(loaded));
    return schema.validate(node);
  }

  @Test
  void thePublishedSchemaIsTheOneThatIsPrinted() throws IOException {
    Path published =
        Path.of(
            System.getProperty("basedir", "."), "..", "docs", "reference", "treatment.schema.json");
    assertEquals(
        Files.readString(published),
        printed("treatment", "--schema").replace("\r\n", "\n"),
        "write it anew: groovemend treatment --schema > docs/reference/treatment.schema.json");
  }

  @Test
  void printedTreatmentsAreValid() throws IOException {
    assertEquals(Set.of(), complaints(printed("treatment")));
    assertEquals(Set.of(), complaints(printed("treatment", "--gentle")));
    assertEquals(
        Set.of(),
        complaints(
            TreatmentText.of(
                Treatment.defaults()
                    .withCaptured(CaptureCurve.RIAA)
                    .withStages(List.of(StageId.NOISE)))));
    assertEquals(Set.of(), complaints("treatment: 1\n"));
  }

  /** What the schema refuses, the reader refuses too. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "stages: [clicks]\n",
        "treatment: 2\n",
        "treatment: 1\nstagse: [clicks]\n",
        "treatment: 1\nstages: [bands]\n",
        "treatment: 1\nstages: clicks\n",
        "treatment: 1\ncaptured: no\n",
        "treatment: 1\nditherSeed: 1.5\n",
        "treatment: 1\nnoise:\n  reductionDb: 60.5\n",
        "treatment: 1\nnoise:\n  reductionDb: \"8\"\n",
        "treatment: 1\nnoise:\n  loudness: 8\n",
        "treatment: 1\nclicks:\n  repairOrder: 64.5\n",
        "treatment: 1\nclicks:\n  repairRounds: 0\n",
      })
  void whatCannotBeIsRefusedBySchemaAndReaderAlike(String yaml) throws IOException {
    assertFalse(complaints(yaml).isEmpty(), "schema takes: " + yaml);
    assertThrows(UsageException.class, () -> TreatmentFile.parse(yaml, "mine.yaml"));
  }
}
