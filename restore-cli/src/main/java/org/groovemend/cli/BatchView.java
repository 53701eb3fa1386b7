package org.groovemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.groovemend.batch.BatchOutcome;
import org.groovemend.batch.BatchPlan;
import org.groovemend.batch.PlannedSide;

/** A plan for a collection and what came of it, in words and for machines. */
final class BatchView {

  private static final double MEGA = 1e6;

  /** Sides of a plan that are told by name. */
  private static final int NAMED = 20;

  private BatchView() {}

  static void print(BatchPlan plan, BatchOrders.Found found, int threads, PrintWriter out) {
    out.println(
        sides(plan.sides().size() + plan.skipped().size())
            + " found, "
            + plan.skipped().size()
            + " done before, "
            + plan.sides().size()
            + " to do");
    plan.reasons().forEach((why, count) -> out.println("  " + count + ": " + why.words()));
    if (found.passedOver() > 0) {
      out.println("  passed over: " + found.passedOver() + " other files");
    }
    if (!plan.sides().isEmpty()) {
      out.println(
          String.format(
              Locale.ROOT,
              "  about %s on %d %s (%s), at most %,.0f MB of results",
              ProgressBar.duration(plan.seconds(threads)),
              threads,
              threads == 1 ? "thread" : "threads",
              plan.factor() == 1 ? "a first guess" : "as sides took so far",
              plan.bytes() / MEGA));
    }
    for (PlannedSide side : plan.sides().subList(0, Math.min(NAMED, plan.sides().size()))) {
      out.println(
          "  "
              + side.order().found().place()
              + " -> "
              + side.output().folder()
              + "/"
              + side.output().name()
              + ".*");
    }
    if (plan.sides().size() > NAMED) {
      out.println("  ... and " + (plan.sides().size() - NAMED) + " more (--json tells all)");
    }
    found.troubles().forEach(trouble -> out.println("  trouble: " + trouble));
    out.flush();
  }

  static Map<String, Object> asMap(BatchPlan plan, BatchOrders.Found found, int threads) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("batch", 1);
    map.put("found", plan.sides().size() + plan.skipped().size());
    map.put("skipped", plan.skipped().size());
    map.put("passedOver", found.passedOver());
    map.put("expectedSeconds", plan.seconds(threads));
    map.put("expectedBytes", plan.bytes());
    List<Map<String, Object>> sides = new ArrayList<>();
    for (PlannedSide side : plan.sides()) {
      Map<String, Object> one = new LinkedHashMap<>();
      one.put("place", side.order().found().place());
      one.put("file", side.order().found().file().toString());
      one.put("disc", side.order().disc());
      one.put("side", side.order().sideName());
      one.put("series", side.order().series());
      one.put("output", side.output().folder() + "/" + side.output().name());
      one.put(
          "grooveOf", side.order().grooveOf() == null ? null : side.order().grooveOf().toString());
      one.put("why", side.why().name().toLowerCase(Locale.ROOT));
      one.put("treatment", side.order().treatment().asMap());
      one.put("expectedSeconds", side.expectedSeconds() * plan.factor());
      sides.add(one);
    }
    map.put("sides", sides);
    map.put("troubles", found.troubles());
    return map;
  }

  static void print(
      BatchOutcome outcome, BatchPlan plan, BatchOrders.Found found, Path folder, PrintWriter out) {
    out.println(
        sides(outcome.done())
            + " done"
            + (outcome.adopted() > 0 ? " (" + outcome.adopted() + " were there already)" : "")
            + ", "
            + plan.skipped().size()
            + " done before, "
            + outcome.failed().size()
            + " failed"
            + (outcome.left() > 0 ? ", " + outcome.left() + " left" : "")
            + ", in "
            + ProgressBar.duration(outcome.seconds()));
    outcome.failed().forEach(one -> out.println("  " + one.sentence()));
    found.troubles().forEach(trouble -> out.println("  trouble: " + trouble));
    out.println("  results and catalogue  " + folder);
    out.flush();
  }

  static Map<String, Object> asMap(
      BatchOutcome outcome, BatchPlan plan, BatchOrders.Found found, Path folder) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("batch", 1);
    map.put("out", folder.toString());
    map.put("done", outcome.done());
    map.put("adopted", outcome.adopted());
    map.put("skipped", plan.skipped().size());
    map.put("left", outcome.left());
    map.put("seconds", outcome.seconds());
    List<Map<String, Object>> failed = new ArrayList<>();
    for (BatchOutcome.FailedSide one : outcome.failed()) {
      Map<String, Object> side = new LinkedHashMap<>();
      side.put("place", one.side().order().found().place());
      side.put("kind", one.failure().kind());
      side.put("message", one.failure().sentence());
      failed.add(side);
    }
    map.put("failed", failed);
    map.put("troubles", found.troubles());
    map.put("stopped", outcome.stopped());
    return map;
  }

  private static String sides(int count) {
    return count + (count == 1 ? " side" : " sides");
  }
}
