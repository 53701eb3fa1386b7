package org.groovemend.audit;

import static org.groovemend.audit.FindingList.figures;
import static org.groovemend.audit.FindingList.say;

import java.util.ArrayList;
import java.util.List;

/** Channels, polarity, gain, and stretches at another level. */
final class LevelFindings {
  private final MeasuredAudit m;
  private final ComparedSides sides;
  private final FindingList found;

  LevelFindings(MeasuredAudit m, ComparedSides sides, FindingList found) {
    this.m = m;
    this.sides = sides;
    this.found = found;
  }

  void channels() {
    if (sides.original().channels() == 1 && sides.derivative().channels() == 1) {
      return;
    }
    List<Object> mixes = new ArrayList<>();
    StringBuilder words = new StringBuilder();
    boolean plain = sides.original().channels() == sides.derivative().channels();
    double misfit = 0;
    for (int c = 0; c < m.models().length; c++) {
      Mix mix = m.models()[c].mix();
      plain &= mix.kind() == Mix.Kind.SAME;
      misfit = Math.max(misfit, mix.misfit());
      mixes.add(figures("channel", c, "made", mix.kind().name(), "weights", mix.weights()));
      words
          .append(words.length() == 0 ? "" : "; ")
          .append(sides.channel(c))
          .append(mix.kind().words());
      if (mix.kind() == Mix.Kind.BOTH) {
        words.append(say(" (%.4f left, %.4f right)", mix.weights()[0], mix.weights()[1]));
      }
    }
    if (!plain) {
      boolean swapped =
          m.models().length == 2
              && sides.original().channels() == 2
              && m.models()[0].mix().kind() == Mix.Kind.OTHER
              && m.models()[1].mix().kind() == Mix.Kind.OTHER;
      found.add(
          Finding.Kind.CHANNELS,
          1 - misfit,
          figures("channels", mixes, "swapped", swapped),
          (swapped ? "Left and right are exchanged." : "Its channels are made so: " + words + "."));
    }
  }

  void gain() {
    List<Object> gains = new ArrayList<>();
    boolean any = false;
    int opposed = 0;
    StringBuilder words = new StringBuilder();
    for (int c = 0; c < m.models().length; c++) {
      double db = m.gainDb()[c];
      boolean exactly = m.models()[c].taps() == null && Math.abs(m.models()[c].gain()) == 1;
      any |= !exactly && Math.abs(db) >= 0.0005;
      gains.add(db);
      opposed += m.models()[c].gain() < 0 ? 1 : 0;
      words.append(c == 0 ? "" : ", ").append(say("%s%+.4f dB", sides.channel(c), db));
    }
    if (opposed > 0) {
      found.add(
          Finding.Kind.POLARITY,
          m.alignment().share(),
          figures("opposedChannels", opposed),
          opposed == m.models().length
              ? "It is upside down: its polarity is reversed."
              : "One channel is upside down, the other not: "
                  + (m.models()[0].gain() < 0 ? "left." : "right."));
    }
    if (any) {
      found.add(
          Finding.Kind.GAIN,
          m.alignment().share(),
          figures("gainDb", gains),
          "Its level was changed by " + words + ".");
    }
  }

  void levels() {
    List<Object> list = new ArrayList<>();
    long count = 0;
    LevelStretch longest = null;
    for (LevelFollower follower : m.levels()) {
      count += follower.count();
      for (LevelStretch s : follower.stretches()) {
        list.add(
            figures(
                "channel", s.channel(),
                "fromFrame", s.from(),
                "toFrame", s.to(),
                "fromDb", s.fromDb(),
                "toDb", s.toDb()));
        if (longest == null || s.to() - s.from() > longest.to() - longest.from()) {
          longest = s;
        }
      }
    }
    if (longest != null) {
      found.add(
          Finding.Kind.LEVEL,
          0.9,
          figures("count", count, "stretches", list),
          say(
              "%d stretch%s at another level than the rest, the longest from %.2f to %.2f s (%s%+.2f dB at its beginning, %+.2f dB at its end).",
              count,
              count == 1 ? " is" : "es are",
              sides.seconds(longest.from()),
              sides.seconds(longest.to()),
              sides.channel(longest.channel()),
              longest.fromDb(),
              longest.toDb()));
    }
  }
}
