package org.groovemend.review;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.decisions.Decision;
import org.groovemend.decisions.Rule;
import org.groovemend.decisions.Verdict;
import org.groovemend.review.desk.DecisionDesk;
import org.groovemend.review.desk.DeskState;
import org.groovemend.review.desk.Outcome;
import org.groovemend.review.door.Reply;
import org.groovemend.review.door.Request;
import org.groovemend.review.door.Route;
import org.groovemend.review.side.SideScan;

/** Requests about decisions. */
final class DeskRoutes {

  private final DecisionDesk desk;
  private final SideScan scan;

  DeskRoutes(DecisionDesk desk, SideScan scan) {
    this.desk = desk;
    this.scan = scan;
  }

  void addTo(Map<String, Route> routes) {
    routes.put("/api/marks", new Route("GET", true, request -> Reply.bytes(desk.marks())));
    routes.put("/api/decisions", new Route("GET", true, request -> Reply.json(state())));
    routes.put("/api/comment", new Route("GET", true, this::comment));
    routes.put("/api/decide", new Route("POST", true, this::decide));
    routes.put("/api/forget", new Route("POST", true, this::forget));
    routes.put("/api/rule", new Route("POST", true, this::rule));
    routes.put("/api/drop-rule", new Route("POST", true, this::dropRule));
    routes.put("/api/back", new Route("POST", true, this::back));
    routes.put("/api/sign", new Route("POST", true, this::sign));
    routes.put("/api/reopen", new Route("POST", true, this::reopen));
  }

  private Reply comment(Request request) {
    long edit = request.query().whole("edit");
    Decision decision = desk.state().file().decisions().get(edit);
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("comment", decision == null ? "" : decision.comment());
    told.put("atUtc", decision == null ? null : decision.atUtc());
    return Reply.json(told);
  }

  private Reply decide(Request request) throws IOException {
    Body body = Body.read(request.body(), "edit", "verdict", "comment");
    String verdict = body.text("verdict");
    long edit = Body.required(body.whole("edit"), "edit");
    return told(
        desk.decide(edit, verdict == null ? null : Verdict.ofKey(verdict), body.text("comment")));
  }

  private Reply forget(Request request) throws IOException {
    Body body = Body.read(request.body(), "edit");
    return told(desk.forget(Body.required(body.whole("edit"), "edit")));
  }

  private Reply rule(Request request) throws IOException {
    Body body =
        Body.read(
            request.body(),
            "verdict",
            "stage",
            "channel",
            "fromFrame",
            "toFrame",
            "belowMargin",
            "comment");
    Integer channel = body.index("channel");
    String comment = body.text("comment");
    return told(
        desk.addRule(
            Verdict.ofKey(Body.required(body.text("verdict"), "verdict")),
            body.text("stage"),
            channel,
            body.whole("fromFrame"),
            body.whole("toFrame"),
            body.number("belowMargin"),
            comment == null ? "" : comment));
  }

  private Reply dropRule(Request request) throws IOException {
    Body body = Body.read(request.body(), "index");
    return told(desk.dropRule(Body.required(body.index("index"), "index")));
  }

  private Reply back(Request request) throws IOException {
    Body.read(request.body());
    return told(desk.back());
  }

  private Reply sign(Request request) throws IOException {
    Body body = Body.read(request.body(), "by");
    if (scan.state() != SideScan.State.HOLDS) {
      throw new IllegalStateException(
          scan.state() == SideScan.State.READING
              ? "the files are still being compared with the ledger; sign off when that is done"
              : scan.sentence());
    }
    return told(desk.sign(Body.required(body.text("by"), "name")));
  }

  private Reply reopen(Request request) throws IOException {
    Body.read(request.body());
    return told(desk.reopen());
  }

  private Reply told(Outcome outcome) {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("edit", outcome.edit());
    told.put("mark", outcome.mark());
    told.put("state", state());
    return Reply.json(told);
  }

  private Map<String, Object> state() {
    DeskState state = desk.state();
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("revision", state.revision());
    told.put("reviewer", state.file().reviewer());
    for (Verdict verdict : Verdict.values()) {
      told.put(verdict.key(), state.byVerdict()[verdict.ordinal()]);
    }
    told.put("said", state.said());
    told.put("lastStep", state.lastStep());
    List<Object> rules = new ArrayList<>();
    for (Rule rule : state.file().rules()) {
      rules.add(told(rule));
    }
    told.put("rules", rules);
    told.put("signOff", state.file().signOff());
    return told;
  }

  private Map<String, Object> told(Rule rule) {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("verdict", rule.verdict().key());
    told.put("stage", rule.stage());
    told.put("channel", rule.channel());
    told.put("fromFrame", rule.fromFrame());
    told.put("toFrame", rule.toFrame());
    told.put("belowMargin", rule.belowMargin());
    told.put("comment", rule.comment());
    told.put("edits", desk.meets(rule));
    return told;
  }
}
