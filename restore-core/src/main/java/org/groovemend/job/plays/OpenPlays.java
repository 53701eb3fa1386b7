package org.groovemend.job.plays;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.chain.Progress;
import org.groovemend.chain.SideChain;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.job.side.Survey;
import org.groovemend.job.side.WholeWords;
import org.groovemend.measure.Decibels;
import org.groovemend.plays.PlaySet;
import org.groovemend.plays.PlaySurvey;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;

/** Several files that are said to be plays of one side: opened, read once, aligned, compared. */
final class OpenPlays implements Closeable {

  /** Below this, re the sound, two plays do not differ as plays do: one is a copy of the other. */
  private static final double ALIKE_DB = -75;

  private final List<SideReader> sides = new ArrayList<>();
  private final List<FileTime> modified = new ArrayList<>();
  private final List<Survey> surveys = new ArrayList<>();
  private PlaySet set;
  private PlaySurvey survey;

  private OpenPlays() {}

  /**
   * Opens and compares.
   *
   * @throws RequestRefusedException if there are not two different files, or too many
   * @throws InputRejectedException if one cannot be taken, or is no play of the same performance
   */
  static OpenPlays open(List<Path> files, Crew crew, Progress progress) throws IOException {
    if (files.size() < 2 || files.size() > PlaySet.MOST) {
      throw new RequestRefusedException(
          files.size() + " file given; give two to " + PlaySet.MOST + " plays of one side");
    }
    OpenPlays plays = new OpenPlays();
    try {
      plays.read(files, crew, progress);
      plays.compare(crew, progress);
      return plays;
    } catch (IOException | RuntimeException e) {
      plays.close();
      throw e;
    }
  }

  private void read(List<Path> files, Crew crew, Progress progress) throws IOException {
    for (int i = 0; i < files.size(); i++) {
      for (int j = 0; j < i; j++) {
        if (Files.exists(files.get(i)) && Files.isSameFile(files.get(i), files.get(j))) {
          throw sameFile(files.get(i), files.get(j), "are the same file");
        }
      }
    }
    for (Path file : files) {
      sides.add(SideFiles.open(file));
      modified.add(Files.getLastModifiedTime(file));
    }
    int channels = sides.get(0).format().channels();
    for (SideReader side : sides) {
      if (side.format().channels() != channels) {
        throw new InputRejectedException(
            side.path(),
            "",
            "it has "
                + words(side.format().channels())
                + ", but "
                + sides.get(0).path().getFileName()
                + " has "
                + words(channels),
            "give plays with as many channels each");
      }
    }
    for (SideReader side : sides) {
      Survey one = Survey.of(side, crew, progress);
      if (one.levels().silent()) {
        throw new InputRejectedException(
            side.path(), "", "every sample is zero", "give a play that holds sound");
      }
      for (int j = 0; j < surveys.size(); j++) {
        if (surveys.get(j).facts().samplesSha256().equals(one.facts().samplesSha256())) {
          throw sameFile(side.path(), sides.get(j).path(), "hold the same samples");
        }
      }
      surveys.add(one);
    }
  }

  private static RequestRefusedException sameFile(Path one, Path other, String how) {
    return new RequestRefusedException(
        one + " and " + other + " " + how + "; give different plays of the side");
  }

  private static String words(int channels) {
    return channels == 1 ? "one channel" : "two channels";
  }

  private void compare(Crew crew, Progress progress) throws IOException {
    List<RangeReader> readers = new ArrayList<>();
    SideChain none = new SideChain(List.of());
    for (int p = 0; p < sides.size(); p++) {
      readers.add(none.reader(WholeWords.of(sides.get(p), surveys.get(p).levels())));
    }
    try {
      set = PlaySet.align(readers, crew, progress);
    } catch (PlaySet.RefusedException e) {
      if (e.refusal().exchanged()) {
        throw new InputRejectedException(
            sides.get(e.refusal().play()).path(),
            "",
            "its channels are exchanged against those of " + sides.get(0).path().getFileName(),
            "exchange the channels of one of them and try again");
      }
      throw new InputRejectedException(
          sides.get(e.refusal().play()).path(),
          "",
          "it is no play of the performance of "
              + sides.get(0).path().getFileName()
              + ": "
              + e.refusal().reason(),
          "give transfers or copies of one recording, most of it in common");
    }
    survey = PlaySurvey.of(set, crew, progress);
    for (int p = 1; p < sides.size(); p++) {
      double apart = apartDb(p);
      if (apart < ALIKE_DB) {
        throw new RequestRefusedException(
            String.format(
                java.util.Locale.ROOT,
                "%s and %s are copies of one transfer, not two plays: they differ by %.0f dB only; give plays made one after another",
                sides.get(0).path(),
                sides.get(p).path(),
                apart));
      }
    }
  }

  private double apartDb(int play) {
    double noise = 0;
    double level = 0;
    int all = survey.passages();
    double[] mine = survey.ownNoise(play, 0, all, true);
    double[] its = survey.ownNoise(0, 0, all, true);
    double[] levels = survey.level(0, 0, all);
    double[] centres = survey.centresHertz();
    for (int b = 0; b < mine.length; b++) {
      // the resampler's band ends somewhere above
      if (centres[b] > 100 && centres[b] < 8000) {
        noise += mine[b] + its[b];
        level += levels[b];
      }
    }
    return level > 0 ? Decibels.ofPower(noise / level) : 0;
  }

  /**
   * To be asked when all is read: what was measured at first must be what was read later.
   *
   * @throws InputRejectedException if a file was written to meanwhile
   */
  void requireUnchanged() throws IOException {
    for (int p = 0; p < sides.size(); p++) {
      Path file = sides.get(p).path();
      if (Files.size(file) != surveys.get(p).facts().bytes()
          || !Files.getLastModifiedTime(file).equals(modified.get(p))) {
        throw new InputRejectedException(
            file,
            "while reading",
            "the file was changed by another program",
            "wait until it is complete and try again");
      }
    }
  }

  List<SideReader> sides() {
    return List.copyOf(sides);
  }

  Survey facts(int play) {
    return surveys.get(play);
  }

  PlaySet set() {
    return set;
  }

  PlaySurvey survey() {
    return survey;
  }

  int count() {
    return sides.size();
  }

  String name(int play) {
    return sides.get(play).path().getFileName().toString();
  }

  @Override
  public void close() throws IOException {
    IOException trouble = null;
    for (SideReader side : sides) {
      try {
        side.close();
      } catch (IOException e) {
        trouble = e;
      }
    }
    if (trouble != null) {
      throw trouble;
    }
  }
}
