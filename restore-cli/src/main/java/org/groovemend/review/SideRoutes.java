package org.groovemend.review;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;
import org.groovemend.ledger.Ledger;
import org.groovemend.review.door.Refusal;
import org.groovemend.review.door.Reply;
import org.groovemend.review.door.Request;
import org.groovemend.review.door.Route;
import org.groovemend.review.side.Clip;
import org.groovemend.review.side.Clips;
import org.groovemend.review.side.EditTable;
import org.groovemend.review.side.ReviewSide;
import org.groovemend.review.side.SideScan;
import org.groovemend.review.side.SpectrogramTiles;
import org.groovemend.review.side.WaveTiles;

/** Requests about the side: what it is, its edits, pictures and sounds. */
final class SideRoutes {

  private final ReviewSide side;
  private final SideScan scan;
  private final Map<String, Object> next;
  private final WaveTiles waves;
  private final SpectrogramTiles spectrograms;
  private final Clips clips;
  private final byte[] columns;

  /**
   * @param next what the page shows of files and of the command to run afterwards
   */
  SideRoutes(ReviewSide side, SideScan scan, Map<String, Object> next) {
    this.side = side;
    this.scan = scan;
    this.next = next;
    this.waves = scan.tiles();
    this.spectrograms = new SpectrogramTiles(side);
    this.clips = new Clips(side);
    this.columns = side.edits().columns();
  }

  void addTo(Map<String, Route> routes) {
    routes.put("/api/side", new Route("GET", true, request -> Reply.json(about())));
    routes.put("/api/status", new Route("GET", true, request -> Reply.json(status())));
    routes.put("/api/edits", new Route("GET", true, request -> Reply.bytes(columns)));
    routes.put("/api/edit", new Route("GET", true, this::edit));
    routes.put("/api/wave", new Route("GET", true, this::wave));
    routes.put("/api/spectrogram", new Route("GET", true, this::spectrogram));
    routes.put("/api/sound", new Route("GET", true, this::sound));
    routes.put("/api/clip", new Route("GET", true, this::clip));
  }

  private Map<String, Object> about() {
    Ledger ledger = side.ledger();
    Map<String, Object> told = new LinkedHashMap<>(next);
    told.put("name", ledger.header().original().name());
    told.put("restored", ledger.totals().restored().name());
    told.put("seal", ledger.seal());
    told.put("sampleRateHz", side.format().sampleRateHz());
    told.put("channels", side.format().channels());
    told.put("frames", side.frames());
    told.put("edits", side.edits().size());
    told.put("stages", side.edits().stages());
    told.put("allStages", ledger.header().stages());
    told.put("wholeSignal", ledger.header().wholeSignal());
    told.put("rebuilt", side.rebuilt());
    told.put("changedSamples", ledger.totals().changedSamples());
    told.put("warnings", ledger.totals().warnings());
    told.put("waveBins", WaveTiles.BINS);
    told.put("spectrogramColumns", SpectrogramTiles.COLUMNS);
    told.put("longestSeconds", Clips.LONGEST_SECONDS);
    told.put("status", status());
    return told;
  }

  private Map<String, Object> status() {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("state", scan.state());
    told.put("share", scan.share());
    told.put("sentence", scan.sentence());
    return told;
  }

  private Reply edit(Request request) {
    EditTable edits = side.edits();
    long number = request.query().whole("number");
    if (number < 1 || number > edits.size()) {
      throw new Refusal(404, "There is no such edit.");
    }
    int i = (int) number - 1;
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("method", edits.method(i));
    told.put("modelOrder", edits.modelOrder(i));
    told.put("uncertaintyDbfs", finite(edits.uncertaintyDbfs(i)));
    told.put("statistic", finite(edits.statistic(i)));
    told.put("threshold", finite(edits.threshold(i)));
    return Reply.json(told);
  }

  private Reply wave(Request request) throws IOException {
    int level = (int) Math.min(request.query().whole("level"), WaveTiles.HIGHEST_LEVEL + 1);
    return Reply.bytes(waves.tile(level, request.query().whole("tile")));
  }

  private Reply spectrogram(Request request) throws IOException {
    String which = request.query().text("side");
    if (!which.equals("before") && !which.equals("after")) {
      throw new Refusal(400, "A side is before or after.");
    }
    int level = (int) Math.min(request.query().whole("level"), 99);
    return Reply.of(
        "image/png",
        spectrograms.tile(which.equals("after"), level, request.query().whole("tile")));
  }

  private Clip asked(Request request) throws IOException {
    return clips.clip(
        request.query().whole("from"),
        request.query().whole("to"),
        request.query().text("level").equals("matched"));
  }

  private Reply sound(Request request) throws IOException {
    Clip clip = asked(request);
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("sampleRateHz", clip.sampleRateHz());
    told.put("gainDb", finite(clip.gainDb()));
    told.put("matched", clip.matched());
    told.put("matchDb", finite(clip.matchDb()));
    told.put("removedGainDb", finite(clip.removedGainDb()));
    return Reply.json(told);
  }

  private Reply clip(Request request) throws IOException {
    String what = request.query().text("what");
    Clip clip = asked(request);
    return Reply.of(
        "audio/wav",
        switch (what) {
          case "before" -> clip.before();
          case "after" -> clip.after();
          case "removed" -> clip.removed();
          default -> throw new Refusal(400, "A sound is before, after or removed.");
        });
  }

  private static Double finite(double value) {
    return Double.isFinite(value) ? value : null;
  }
}
