package org.groovemend.chain;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.Repair;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.SignalStage;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;

/** Stages simple enough that the right answer is plain. */
final class ToyStages {

  private ToyStages() {}

  record Toy(StageId stage, int version) implements StageParameters {}

  /** Takes 0.25 away over {@code length} frames from every sample that exceeds 0.5. */
  record Clipper(int segmentFrames, int length) implements RepairStage {

    @Override
    public StageParameters parameters() {
      return new Toy(StageId.CLICKS, 1);
    }

    @Override
    public Segmentation segmentation(AudioFormat format) {
      return new Segmentation(segmentFrames, 3, length);
    }

    @Override
    public boolean neutral() {
      return false;
    }

    @Override
    public Worker open(AudioFormat format) {
      return window -> {
        List<Repair> found = new ArrayList<>();
        for (int i = window.startIndex(); i < window.endIndex(); i++) {
          for (int c = 0; c < window.channels(); c++) {
            if (window.samples()[c][i] > 0.5) {
              long start = window.firstFrame() + i;
              int n = (int) Math.min(length, window.sideFrames() - start);
              double[] removed = new double[n];
              java.util.Arrays.fill(removed, 0.25);
              found.add(
                  new Repair(
                      c,
                      start,
                      removed,
                      new Repair.Evidence(1, 0.5, "toy", 0, start, 1, Double.NaN)));
            }
          }
        }
        return found;
      };
    }
  }

  /**
   * Takes 0.25 away from every run of samples above 0.5, of which a segment sees only what lies in
   * it and behind it.
   */
  record RunClipper(int segmentFrames) implements RepairStage {

    @Override
    public StageParameters parameters() {
      return new Toy(StageId.CLICKS, 1);
    }

    @Override
    public Segmentation segmentation(AudioFormat format) {
      return new Segmentation(segmentFrames, 0, segmentFrames);
    }

    @Override
    public boolean neutral() {
      return false;
    }

    @Override
    public Worker open(AudioFormat format) {
      return window -> {
        List<Repair> found = new ArrayList<>();
        double[] x = window.samples()[0];
        for (int i = window.startIndex(); i < window.endIndex(); i++) {
          int end = i;
          while (end < window.length() && x[end] > 0.5) {
            end++;
          }
          if (end > i) {
            double[] removed = new double[end - i];
            java.util.Arrays.fill(removed, 0.25);
            long start = window.firstFrame() + i;
            found.add(
                new Repair(
                    0,
                    start,
                    removed,
                    new Repair.Evidence(1, 0.5, "toy", 0, start, end - i, Double.NaN)));
            i = end;
          }
        }
        return found;
      };
    }
  }

  /** Moving average over three frames, zero beyond the ends of the side. */
  record Smoother(int segmentFrames) implements SignalStage {

    @Override
    public StageParameters parameters() {
      return new Toy(StageId.NOISE, 1);
    }

    @Override
    public Segmentation segmentation(AudioFormat format) {
      return new Segmentation(segmentFrames, 1, 1);
    }

    @Override
    public boolean neutral() {
      return false;
    }

    @Override
    public Worker open(AudioFormat format) {
      return (window, out) -> {
        for (int c = 0; c < window.channels(); c++) {
          for (int i = window.startIndex(); i < window.endIndex(); i++) {
            out[c][i - window.startIndex()] =
                (at(window, c, i - 1) + at(window, c, i) + at(window, c, i + 1)) / 3;
          }
        }
      };
    }

    private static double at(SegmentWindow window, int channel, int index) {
      return index < 0 || index >= window.length() ? 0 : window.samples()[channel][index];
    }
  }
}
