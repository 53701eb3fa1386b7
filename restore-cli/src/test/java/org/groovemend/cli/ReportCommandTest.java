package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.xml.sax.InputSource;

class ReportCommandTest {
  private static final Pattern PICTURE = Pattern.compile("data:image/png;base64,([^\"]+)");

  @TempDir Path folder;
  private Path ledger;
  private Path child;
  private List<String> edits;

  @BeforeEach
  void restoreAndUndo() throws IOException {
    Path side = folder.resolve("side.wav");
    SmallSide.write(side, 1);
    good("restore", side, "--stages", "clicks", "--captured", "flat", "--no-clips", "--quiet");
    ledger = folder.resolve("side.ledger.jsonl");
    edits = CommandRun.of("edits", ledger, "--csv").out().lines().skip(1).toList();
    String said =
        good("undo", ledger, "--edit", "2", "--why", "<castanet>", "--by", "Ada", "--quiet");
    child = folder.resolve("side.undo-1.ledger.jsonl");
    assertTrue(said.contains("groovemend report " + child), said);
  }

  private static String good(Object... args) {
    CommandRun run = CommandRun.of(args);
    assertEquals(0, run.code(), run.err());
    return run.out();
  }

  @Test
  void thePageOfAnUndoneCopyTellsWhatWasTakenBack() throws Exception {
    good("report", child, "--quiet");
    String page = Files.readString(folder.resolve("side.undo-1.report.html"));
    String doctype = "<!DOCTYPE html>";
    assertTrue(page.startsWith(doctype), page.substring(0, 80));
    DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(page.substring(doctype.length()))));
    assertTrue(page.contains("1 of " + edits.size() + " edits was taken back"), page);
    assertTrue(page.contains("Decided by Ada; nobody has signed the decisions off."), page);
    assertTrue(page.contains("&lt;castanet&gt;"), page);
    String frame = edits.get(1).split(",")[0];
    assertTrue(page.contains(">2</th>"), page);
    assertTrue(page.contains(">" + frame + "</td>"), page);
    assertTrue(page.contains("comes back byte for byte was tried"), page);
    // taken back, before and after twice, where edits lie
    Matcher pictures = PICTURE.matcher(page);
    int count = 0;
    while (pictures.find()) {
      count++;
      assertNotNull(
          ImageIO.read(new ByteArrayInputStream(Base64.getDecoder().decode(pictures.group(1)))));
    }
    assertEquals(4, count);
    CommandRun again = CommandRun.of("report", child, "--quiet");
    assertEquals(6, again.code(), again.err());
    good("report", child, "--quiet", "--replace");
  }

  @Test
  void aParentThatIsNotAtHandIsSaidSoAndFoundWhereItIs() throws IOException {
    Path vault = Files.createDirectory(folder.resolve("vault"));
    Files.move(ledger, vault.resolve("side.ledger.jsonl"));
    Path page = folder.resolve("page.html");
    good("report", child, "--out", page, "--quiet");
    assertTrue(Files.readString(page).contains("side.ledger.jsonl is not at hand"));
    good("report", child, "--out", page, "--quiet", "--replace", "--parent", vault);
    assertTrue(Files.readString(page).contains("&lt;castanet&gt;"));
    // any ledger has a page
    good(
        "report",
        vault.resolve("side.ledger.jsonl"),
        "--restored",
        folder.resolve("side.restored.wav"),
        "--quiet");
    assertFalse(
        Files.readString(vault.resolve("side.report.html")).contains("What was taken back"));
  }

  @Test
  void forebearsAndDecisionsAreNotWrittenOver() throws IOException {
    for (String name : List.of("side.ledger.jsonl", "side.undo-1.decisions.json")) {
      Path file = folder.resolve(name);
      byte[] was = Files.readAllBytes(file);
      CommandRun run = CommandRun.of("report", child, "--out", file, "--replace", "--quiet");
      assertEquals(2, run.code(), run.err());
      assertTrue(java.util.Arrays.equals(was, Files.readAllBytes(file)), name);
    }
  }

  @Test
  void ofFilesThatDoNotHoldNoPageIsWritten() throws IOException {
    Path copy = folder.resolve("side.undo-1.restored.wav");
    byte[] bytes = Files.readAllBytes(copy);
    bytes[bytes.length / 2] ^= 1;
    Files.write(copy, bytes);
    CommandRun run = CommandRun.of("report", child, "--quiet");
    assertEquals(5, run.code(), run.err());
    assertTrue(run.err().contains("does not hold"), run.err());
    assertFalse(Files.exists(folder.resolve("side.undo-1.report.html")));
  }
}
