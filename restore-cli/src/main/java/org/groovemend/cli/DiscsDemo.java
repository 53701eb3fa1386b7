package org.groovemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.chain.Progress;
import org.groovemend.job.deliver.Deliver;
import org.groovemend.job.deliver.DeliverOutcome;
import org.groovemend.job.deliver.DeliverRequest;
import org.groovemend.job.deliver.VerifyDelivery;
import org.groovemend.job.demo.DemoDiscs;
import org.groovemend.job.proof.Verify;
import org.groovemend.ledger.Check;

/** The way from two flat transfers to finished files, on invented discs. */
final class DiscsDemo {

  private DiscsDemo() {}

  /** Returns the exit code. */
  static int run(Path folder, Hands hands, Progress bar, boolean json, PrintWriter out)
      throws Exception {
    Instant now = Instant.now();
    Progress watched = hands.watching(bar);
    watched.at("making", 0, 1);
    DemoDiscs discs = DemoDiscs.make();
    discs.write(folder, DeliverCommand.text("discs.yaml"), now);
    Path recipe = folder.resolve(DemoDiscs.RECIPE_NAME);
    DeliverOutcome outcome =
        Deliver.run(
            new DeliverRequest(
                RecipeFile.read(recipe, List.of()),
                DeliverCommand.beside(recipe),
                Version.number(),
                now),
            hands.crew(),
            watched);
    List<Check> checks = VerifyDelivery.run(outcome.folder(), null);
    Path picture = discs.draw(folder, outcome, watched);
    ProgressBar.clear(bar);
    boolean holds = !Verify.failed(checks);
    if (json) {
      Map<String, Object> all = new LinkedHashMap<>();
      all.put("demo", 1);
      all.put("holds", holds);
      all.put("folder", outcome.folder().toString());
      all.put("copies", outcome.copies());
      all.put("remarks", outcome.remarks());
      all.put("picture", picture.toString());
      Json.print(out, all);
    } else {
      out.println("Two invented discs, transferred flat, and a recipe: " + recipe);
      DeliverView.print(outcome, false, out);
      out.println("  picture " + picture);
      out.println();
      out.println(
          holds
              ? "Verified: every copy goes back to its original. Read the recipe; then write your own."
              : "Something does not hold; please report this.");
      out.flush();
    }
    return holds ? ExitCode.DONE : ExitCode.VERIFICATION_FAILED;
  }
}
