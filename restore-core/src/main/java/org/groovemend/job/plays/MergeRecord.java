package org.groovemend.job.plays;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.ledger.FileFacts;
import org.groovemend.plays.Place;
import org.groovemend.plays.PlayFinding;
import org.groovemend.plays.PlaySurvey;

/**
 * What a merged transfer was made of: which play, when, how much; docs/reference/merge-record.md.
 */
final class MergeRecord {
  static final int VERSION = 1;

  /** Shares are kept to so many places. */
  private static final double ROUNDING = 1e4;

  private MergeRecord() {}

  static Map<String, Object> content(
      OpenPlays plays,
      MergePlays.Request request,
      MergePlays.Outcome outcome,
      String outputSha256) {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("merge", VERSION);
    all.put("tool", "groovemend " + request.toolVersion());
    all.put("made", request.now().toString());
    List<Map<String, Object>> inputs = new ArrayList<>();
    for (int p = 0; p < plays.count(); p++) {
      FileFacts facts = plays.facts(p).facts();
      Map<String, Object> one =
          file(facts.name(), facts.bytes(), facts.sha256(), facts.format(), facts.frames());
      one.put("samplesSha256", facts.samplesSha256());
      one.put("alignment", p == 0 ? null : alignment(plays.set().findings().get(p)));
      inputs.add(one);
    }
    all.put("plays", inputs);
    all.put(
        "output",
        file(
            outcome.out().getFileName().toString(),
            outcome.bytes(),
            outputSha256,
            outcome.format(),
            outcome.frames()));
    all.put("ditherSeed", request.ditherSeed());
    all.put("samplesClipped", outcome.clipped());
    all.put("chunksLeftOut", outcome.leftOut());
    all.put("weights", weights(plays));
    List<Map<String, Object>> places = new ArrayList<>();
    for (Place place : plays.survey().places()) {
      places.add(place(place, plays.count()));
    }
    all.put("places", places);
    return all;
  }

  private static Map<String, Object> file(
      String name, long bytes, String sha256, AudioFormat format, long frames) {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("name", name);
    all.put("bytes", bytes);
    all.put("sha256", sha256);
    all.put("frames", frames);
    all.put("sampleRateHz", format.sampleRateHz());
    all.put("channels", format.channels());
    all.put("coding", format.coding().name());
    all.put("containerBits", format.containerBits());
    return all;
  }

  private static Map<String, Object> alignment(PlayFinding a) {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("offsetSeconds", a.offsetSeconds());
    all.put("ratio", a.ratio());
    all.put("fromSeconds", a.fromSeconds());
    all.put("toSeconds", a.toSeconds());
    all.put("gains", a.gains());
    all.put("likeness", a.likeness());
    all.put("anchors", a.anchors());
    all.put("followHertz", a.followHertz());
    all.put("scatterSamples", a.scatterSamples());
    all.put("doubtSamples", a.doubtSamples());
    Map<String, Object> curve = new LinkedHashMap<>();
    curve.put("fromSeconds", a.curve().fromSeconds());
    curve.put("knotSeconds", a.curve().knotSeconds());
    curve.put("coefficients", a.curve().coefficients());
    all.put("delay", curve);
    return all;
  }

  private static Map<String, Object> weights(OpenPlays plays) {
    PlaySurvey survey = plays.survey();
    int bands = survey.centresHertz().length;
    List<Object> responses = new ArrayList<>();
    List<Object> passages = new ArrayList<>();
    for (int p = 0; p < plays.count(); p++) {
      List<Object> byChannel = new ArrayList<>();
      for (int c = 0; c < plays.set().channels(); c++) {
        List<Double> byBand = new ArrayList<>();
        for (int b = 0; b < bands; b++) {
          byBand.add(survey.response(p, c, b));
        }
        byChannel.add(byBand);
      }
      responses.add(byChannel);
    }
    for (int n = 0; n < survey.passages(); n++) {
      List<Object> byPlay = new ArrayList<>();
      for (int p = 0; p < plays.count(); p++) {
        List<Object> byChannel = new ArrayList<>();
        for (int c = 0; c < plays.set().channels(); c++) {
          List<Double> byBand = new ArrayList<>();
          for (int b = 0; b < bands; b++) {
            byBand.add(Math.rint(ROUNDING * survey.share(n, p, c, b)) / ROUNDING);
          }
          byChannel.add(byBand);
        }
        byPlay.add(byChannel);
      }
      passages.add(byPlay);
    }
    Map<String, Object> all = new LinkedHashMap<>();
    List<Double> centres = new ArrayList<>();
    for (double hertz : survey.centresHertz()) {
      centres.add(hertz);
    }
    all.put("centresHz", centres);
    all.put("passageSeconds", survey.passageSeconds());
    all.put("responses", responses);
    all.put("shares", passages);
    return all;
  }

  private static Map<String, Object> place(Place place, int plays) {
    Map<String, Object> one = new LinkedHashMap<>();
    one.put("channel", place.channel());
    one.put("start", place.start());
    one.put("end", place.end());
    List<Integer> damaged = new ArrayList<>();
    for (int p = 0; p < plays; p++) {
      if ((place.damaged() >> p & 1) == 1) {
        damaged.add(p);
      }
    }
    one.put("damaged", damaged);
    one.put("source", place.everywhere() ? null : (Object) place.source());
    one.put("peak", place.peak());
    one.put("sure", place.sure());
    one.put("kind", place.everywhere() ? "everywhere" : place.brief() ? "discharge" : "once");
    return one;
  }
}
