package org.groovemend.job.inspect;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.groovemend.audio.AudioFormat;
import org.groovemend.job.restore.SideFindings;
import org.groovemend.limits.Findings;
import org.groovemend.limits.Measure;
import org.groovemend.limits.Place;
import org.groovemend.measure.ChannelLevels;
import org.groovemend.measure.Decibels;
import org.groovemend.transfer.BandEdge;
import org.groovemend.transfer.Clipping;
import org.groovemend.transfer.Interruption;
import org.groovemend.transfer.Interruptions;
import org.groovemend.transfer.Offset;
import org.groovemend.transfer.WordTruth;

/** Findings on the words of a file: interruptions, levels, clipping, offset, bits, band. */
final class WordFindings {

  /** Odds of 10,000 to 1 are asked of each interruption. */
  private static final double CERTAIN = 0.9999;

  private WordFindings() {}

  static void add(Findings to, AudioFormat format, SideListening heard) {
    TransferMeters.Result meters = heard.meters();
    interruptions(to, format, meters.interruptions());
    levels(to, format, heard, meters);
    offsets(to, meters.offsets());
    bits(to, format, meters.words());
    edge(to, format, meters.edge());
  }

  private static void interruptions(Findings to, AudioFormat format, Interruptions found) {
    List<Place> places = new ArrayList<>();
    for (Interruption one : found.places()) {
      places.add(
          Place.of(
              one.frame(),
              one.frame() + one.frames(),
              format.sampleRateHz(),
              one.channel(),
              one.kind().key() + ", " + one.frames() + " frames"));
    }
    String kinds =
        found.places().stream()
            .collect(Collectors.groupingBy(i -> i.kind().key(), Collectors.counting()))
            .entrySet()
            .stream()
            .map(e -> e.getValue() + " " + e.getKey())
            .sorted()
            .collect(Collectors.joining(", "));
    to.number(
        Measure.INTERRUPTIONS,
        found.count(),
        found.count() == 0 ? Double.NaN : CERTAIN,
        found.count() == 0
            ? "No block of words stands still, is zero or stands twice beyond what chance makes; blocks of a few samples"
                + " in noise cannot be told."
            : kinds + "; the recorder lost or repeated samples. Capture again.",
        places);
  }

  private static void levels(
      Findings to, AudioFormat format, SideListening heard, TransferMeters.Result meters) {
    double peak = Double.NEGATIVE_INFINITY;
    for (ChannelLevels channel : heard.survey().levels().channels()) {
      peak = Math.max(peak, channel.peakDbfs());
    }
    to.number(Measure.SAMPLE_PEAK, peak, 1, "The largest of all samples.");
    to.number(
        Measure.TRUE_PEAK, heard.programme().truePeakDbtp(), 1, "Between the samples as well.");
    double lufs = heard.programme().loudness().integratedLufs();
    if (Double.isInfinite(lufs)) {
      to.unknown(Measure.LOUDNESS, "The side is too short or too quiet.");
    } else {
      to.number(Measure.LOUDNESS, lufs, 1, "Clicks and bare groove are in it.");
    }
    clipping(to, format, heard, meters.clipping());
    double music = Decibels.ofAmplitude(meters.musicPeak());
    if (Double.isInfinite(music)) {
      to.unknown(Measure.HEADROOM_MUSIC, "Nothing lasts 10 ms.");
    } else {
      to.number(
          Measure.HEADROOM_MUSIC, -music, Double.NaN, "Peaks of what lasts, clicks left out.");
    }
    if (Double.isInfinite(peak)) {
      to.unknown(Measure.HEADROOM_CLICKS, "Every sample is zero.");
    } else {
      to.number(Measure.HEADROOM_CLICKS, -peak, 1, "The largest sample of all.");
    }
  }

  private static void clipping(
      Findings to, AudioFormat format, SideListening heard, List<Clipping> channels) {
    double minutes = heard.meters().ticks().seconds() / 60;
    long music = 0;
    long clicks = 0;
    List<Place> inMusic = new ArrayList<>();
    List<Place> inClicks = new ArrayList<>();
    List<String> levels = new ArrayList<>();
    List<String> crowded = new ArrayList<>();
    for (int c = 0; c < channels.size(); c++) {
      Clipping found = channels.get(c);
      String wall = SideFindings.wall(c, channels.size());
      music += found.runsInMusic();
      clicks += found.runs() - found.runsInMusic();
      for (Clipping.Place p : found.places()) {
        (p.inMusic() ? inMusic : inClicks)
            .add(
                Place.of(
                    p.frame(),
                    p.frame() + p.frames(),
                    format.sampleRateHz(),
                    c,
                    p.frames() + " equal samples"));
      }
      if (found.runs() > 0) {
        levels.add(
            String.format(
                Locale.ROOT,
                "%s at %.2f dBFS, %d runs, the longest %d samples",
                wall,
                found.levelDbfs(),
                found.runs(),
                found.longest()));
      }
      crowd(crowded, wall + " upwards", found.crowdedUpDbfs());
      crowd(crowded, wall + " downwards", found.crowdedDownDbfs());
    }
    String where = levels.isEmpty() ? "No flat tops." : String.join("; ", levels) + ".";
    to.number(Measure.CLIPPED_IN_MUSIC, music / minutes, Double.NaN, where, inMusic);
    to.number(Measure.CLIPPED_CLICKS, clicks / minutes, Double.NaN, where, inClicks);
    to.word(
        Measure.OVERLOAD,
        crowded.isEmpty() ? "none" : "suspected",
        Double.NaN,
        crowded.isEmpty()
            ? "Extremes grow rarer towards the highest."
            : "Extremes crowd together just below the highest, as behind an overloaded stage or a limiter: "
                + String.join("; ", crowded)
                + ".",
        List.of());
  }

  private static void crowd(List<String> to, String where, double dbfs) {
    if (!Double.isNaN(dbfs)) {
      to.add(String.format(Locale.ROOT, "%s near %.1f dBFS", where, dbfs));
    }
  }

  private static void offsets(Findings to, List<Offset> channels) {
    double mean = 0;
    double drift = 0;
    for (Offset channel : channels) {
      mean = Math.max(mean, Math.abs(channel.mean()));
      drift = Double.isNaN(channel.drift()) ? Double.NaN : Math.max(drift, channel.drift());
    }
    to.number(Measure.OFFSET, Decibels.ofAmplitude(mean), 1, "Mean of all samples of a channel.");
    if (Double.isNaN(drift)) {
      to.unknown(Measure.OFFSET_DRIFT, "The side is shorter than 10 s.");
    } else {
      to.number(
          Measure.OFFSET_DRIFT,
          Decibels.ofAmplitude(drift),
          Double.NaN,
          "Means of parts of 5 s or more; very low rumble is in it.");
    }
  }

  private static void bits(Findings to, AudioFormat format, WordTruth words) {
    if (words.usedBits() == 0) {
      to.unknown(Measure.USED_BITS, "Every word is the same.");
    } else {
      to.number(
          Measure.USED_BITS,
          words.usedBits(),
          1,
          words.usedBits() < format.significantBits()
              ? "The sound was once kept in "
                  + words.usedBits()
                  + " bits; the others of the "
                  + format.significantBits()
                  + " never change."
              : "The lowest bit changes.");
    }
    to.number(
        Measure.COARSER_SECONDS,
        words.coarserSeconds(),
        words.coarserSeconds() > 0 ? CERTAIN : Double.NaN,
        words.coarserSeconds() > 0
            ? "In these seconds the lowest bits stand still: the passage comes from elsewhere."
            : "All seconds use the same bits.");
    if (Double.isNaN(words.codesMet())) {
      to.unknown(Measure.CODES_MET, "Too few small words, or too few codes, to tell.");
    } else {
      to.number(
          Measure.CODES_MET,
          words.codesMet(),
          Double.NaN,
          "Codes between -32,768 and 32,767 that occur, re what as many words of noise would meet.");
    }
  }

  private static void edge(Findings to, AudioFormat format, BandEdge edge) {
    if (!edge.told()) {
      to.unknown(Measure.BAND_EDGE, "The side is too short or too quiet.");
      return;
    }
    if (!edge.found()) {
      to.none(
          Measure.BAND_EDGE,
          "none",
          Double.NaN,
          String.format(
              Locale.ROOT,
              "The spectrum falls nowhere below %.1f kHz as only filters make it.",
              0.44 * format.sampleRateHz() / 1000));
      return;
    }
    String rates =
        edge.sourceRatesHz().isEmpty()
            ? "that is no common rate's band; some lossy coders and filters end so"
            : "it suits a source at "
                + edge.sourceRatesHz().stream()
                    .map(r -> String.format(Locale.ROOT, "%,d", r))
                    .collect(Collectors.joining(" or "))
                + " Hz";
    String above =
        Double.isInfinite(edge.aboveDbfs())
            ? "above there is nothing at all"
            : String.format(
                Locale.ROOT,
                "above lies what rounding to %.1f bits makes (%.0f dBFS over the whole band)",
                edge.aboveBits(),
                edge.aboveDbfs());
    to.number(
        Measure.BAND_EDGE,
        edge.edgeHertz(),
        Double.NaN,
        String.format(Locale.ROOT, "It falls by %.0f dB; %s; %s.", edge.fallDb(), rates, above));
  }
}
