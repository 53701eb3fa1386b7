package org.groovemend.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Locale;
import org.groovemend.bands.BandSurvey;
import org.groovemend.job.bands.BandFade;
import picocli.CommandLine.Option;

/** What a person wants written of the bands of a side. */
final class BandsWanted {

  private static final double LONGEST_FADE = 30;

  @Option(
      names = "--out",
      paramLabel = "FOLDER",
      description = "Cut into pieces; SIDE.bands.json tells frames, checksums and reasons.")
  private Path out;

  @Option(
      names = "--as",
      paramLabel = "FORM",
      description = "Pieces as wav or flac. Default: flac if the side is named so, or else wav.")
  private String form;

  @Option(
      names = "--marked",
      paramLabel = "FILE",
      description = "A WAV copy of the whole side with its bands as cue points and labels.")
  private Path marked;

  @Option(
      names = "--labels",
      paramLabel = "FILE",
      description = "The bands as a list: .csv, .json, or else plain lines.")
  private Path labels;

  @Option(
      names = "--fade-in",
      paramLabel = "S",
      defaultValue = "0",
      description = "Fade bands in from the groove noise; such pieces are no longer word for word.")
  private double fadeIn;

  @Option(
      names = "--fade-out",
      paramLabel = "S",
      defaultValue = "0",
      description = "Fade bands out into the groove noise, never into digital silence.")
  private double fadeOut;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "Of the noise and dither in fades. Default: ${DEFAULT-VALUE}.")
  private long seed;

  Path out() {
    return out;
  }

  Path marked() {
    return marked;
  }

  Path labels() {
    return labels;
  }

  boolean flac(Path side) {
    return form == null
        ? side.toString().toLowerCase(Locale.ROOT).endsWith(".flac")
        : form.equals("flac");
  }

  /** Null if no fade is asked for. */
  BandFade fade(BandSurvey survey) {
    return fadeIn == 0 && fadeOut == 0 ? null : BandFade.of(survey, fadeIn, fadeOut, seed);
  }

  /** Says what cannot be before any work begins. */
  void check() throws IOException {
    if (form != null && !form.equals("wav") && !form.equals("flac")) {
      throw new UsageException("--as " + form + " is neither wav nor flac");
    }
    if (!(fadeIn >= 0 && fadeIn <= LONGEST_FADE) || !(fadeOut >= 0 && fadeOut <= LONGEST_FADE)) {
      throw new UsageException("--fade-in and --fade-out are 0 to 30 seconds");
    }
    if (out == null && (form != null || fadeIn > 0 || fadeOut > 0)) {
      throw new UsageException("--as, --fade-in and --fade-out are for pieces; name --out");
    }
    if (out != null) {
      OutPlace.requireFolder(out);
    }
    if (marked != null) {
      OutPlace.requireFile(marked, "--marked");
      if (!marked.toString().toLowerCase(Locale.ROOT).endsWith(".wav")) {
        throw new UsageException("--marked " + marked + " does not end in .wav; marks are for WAV");
      }
    }
    if (labels != null) {
      OutPlace.requireFile(labels, "--labels");
    }
  }
}
