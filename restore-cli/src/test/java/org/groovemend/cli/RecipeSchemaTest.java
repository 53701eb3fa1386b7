package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.groovemend.deliverable.CopyKind;
import org.groovemend.job.deliver.Recipe;
import org.groovemend.stage.StageId;
import org.groovemend.tags.TagField;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

/** The schema is judged by a validator that is none of ours; recipes on pages are read. */
class RecipeSchemaTest {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Path DOCS = Path.of(System.getProperty("basedir", "."), "..", "docs");

  @TempDir private Path dir;

  private static String schema() {
    return CommandRun.of("deliver", "--schema").out().replace("\r\n", "\n");
  }

  private static Set<?> complaints(String yaml) throws IOException {
    Object loaded = new Load(LoadSettings.builder().build()).loadFromString(yaml);
    return JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
        .getSchema(schema())
        .validate(JSON.readTree(JSON.writeValueAsString(loaded)));
  }

  private Recipe read(String yaml) throws IOException {
    return RecipeFile.of(YamlMap.parse(yaml, "r.yaml", "recipe"), dir, List.of());
  }

  @Test
  void thePublishedSchemaIsTheOneThatIsPrinted() throws IOException {
    assertEquals(
        Files.readString(DOCS.resolve("reference").resolve("recipe.schema.json")),
        schema(),
        "write it anew: groovemend deliver --schema > docs/reference/recipe.schema.json");
  }

  @Test
  void theExampleIsARecipeThatFitsAScreen() throws IOException {
    String example = CommandRun.of("deliver", "--example").out();
    assertEquals(Set.of(), complaints(example));
    example.lines().forEach(line -> assertTrue(line.length() <= 105, line));
    Recipe recipe = read(example);
    assertEquals(2, recipe.sides().size());
    Recipe.Side first = recipe.sides().get(0);
    assertEquals("400/12", first.treatment().curve().apply(), "the side's own");
    assertEquals(-6, first.treatment().curve().gainDb(), "that of all sides");
    assertTrue(first.treatment().has(StageId.CURVE));
    assertEquals("A Made-up Foxtrot", first.tags().tags().get(TagField.TITLE));
    assertEquals("An Invented Orchestra", first.tags().tags().get(TagField.PERFORMER));
    assertEquals(76.59 / (7200.0 / 92), first.speed().factor(), 1e-12);
    assertEquals(1, recipe.sides().get(1).speed().factor());
    assertEquals("The Invented Archive", recipe.bagInfo().get("Source-Organization"));
    assertEquals("radio", recipe.copies().get(2).name());
    assertTrue(recipe.copies().get(2).loudness().perSet());
  }

  /** Nothing but the version: the transfers as they are, and restored with the defaults. */
  @Test
  void aRecipeNeedsNothing() throws IOException {
    Recipe recipe = read("recipe: 1\n");
    assertEquals(
        List.of(CopyKind.PRESERVATION, CopyKind.SERVICE),
        recipe.copies().stream().map(copy -> copy.kind()).toList());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "sides: [a.wav]",
        "recipe: 1\ncopeis: []",
        "recipe: 1\ncopies: [{copy: servce}]",
        "recipe: 1\ncopies: [{copy: service, loudness: 3}]",
        "recipe: 1\ncopies: [{copy: service, depth: 20}]",
        "recipe: 1\ntags: {titel: x}",
        "recipe: 1\nspeed: {factor: 9}",
        "recipe: 1\ntreatment: {stages: [cliks]}",
        "recipe: 1\nsides: [{ledger: a.jsonl}]",
      })
  void whatTheProgramRefusesTheSchemaRefuses(String yaml) throws IOException {
    assertFalse(complaints(yaml).isEmpty(), yaml);
  }

  @Test
  void recipesOnThePagesAreRecipes() throws IOException {
    int seen = 0;
    for (String page : List.of("how-to/deliver.md", "reference/recipe.md")) {
      Matcher fence =
          Pattern.compile("(?ms)^ *```yaml\n(.*?)^ *```")
              .matcher(Files.readString(DOCS.resolve(page)));
      while (fence.find()) {
        String yaml = fence.group(1).stripIndent();
        if (yaml.contains("recipe: 1")) {
          assertEquals(Set.of(), complaints(yaml), page);
          read(yaml);
          seen++;
        }
      }
    }
    assertTrue(seen >= 2, "only " + seen);
  }
}
