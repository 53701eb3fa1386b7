package org.groovemend.audit;

import static org.groovemend.audit.FindingList.figures;
import static org.groovemend.audit.FindingList.say;

import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;

/** What became of the words: how many bits are in use, and how they were shortened. */
final class DepthFinding {
  private final MeasuredAudit m;
  private final ComparedSides sides;
  private final FindingList found;

  DepthFinding(MeasuredAudit m, ComparedSides sides, FindingList found) {
    this.m = m;
    this.sides = sides;
    this.found = found;
  }

  void depth() {
    boolean pcm =
        sides.original().coding() == SampleCoding.PCM
            && sides.derivative().coding() == SampleCoding.PCM;
    if (!pcm) {
      if (sides.original().coding() != sides.derivative().coding()
          || sides.original().containerBits() != sides.derivative().containerBits()) {
        found.add(
            Finding.Kind.DEPTH,
            1,
            figures("from", words(sides.original()), "to", words(sides.derivative())),
            "The words were converted from "
                + words(sides.original())
                + " to "
                + words(sides.derivative())
                + ".");
      }
      return;
    }
    int from = sides.originalWords().usedBits();
    int to = sides.derivativeWords().usedBits();
    if (from == to && sides.original().containerBits() == sides.derivative().containerBits()) {
      return;
    }
    Model first = m.models()[0];
    double steps = first.floor() / sides.derivativeWords().step(sides.derivative());
    boolean plain =
        first.taps() == null
            && !first.exact()
            && m.alignment().part() == 0
            && m.alignment().factor() == 1
            && sides.original().sampleRateHz() == sides.derivative().sampleRateHz();
    // what median of the error's size a rounding leaves, times 1.4826: uniform 0.371, with one
    // uniform dither 0.434, with two 0.50, cut off 0.741
    String how =
        !plain
            ? ""
            : steps > 0.33 && steps < 0.40
                ? "rounded without dither"
                : steps >= 0.40 && steps < 0.465
                    ? "with dither of one uniform value"
                    : steps >= 0.465 && steps < 0.56
                        ? "with triangular dither"
                        : steps > 0.70 && steps < 0.78
                            ? "cut off, not rounded"
                            : "how is not told by what was left over";
    found.add(
        Finding.Kind.DEPTH,
        plain && !how.startsWith("how") ? 0.95 : 0.8,
        figures(
            "fromUsedBits",
            from,
            "toUsedBits",
            to,
            "fromContainerBits",
            sides.original().containerBits(),
            "toContainerBits",
            sides.derivative().containerBits(),
            "errorSteps",
            plain ? steps : Double.NaN,
            "how",
            how),
        say(
            "Of the original's words %d of %d bits are in use, of its own %d of %d%s.",
            from,
            sides.original().containerBits(),
            to,
            sides.derivative().containerBits(),
            to < from && !how.isEmpty() ? ": " + how : ""));
  }

  private static String words(AudioFormat f) {
    return f.containerBits() + "-bit " + (f.coding() == SampleCoding.PCM ? "integers" : "floats");
  }
}
