package org.groovemend.job.undo;

import java.io.IOException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.FilePath;
import org.groovemend.decisions.Decision;
import org.groovemend.decisions.DecisionFile;
import org.groovemend.decisions.LedgerName;
import org.groovemend.decisions.Rule;
import org.groovemend.decisions.Verdict;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.job.side.TimeRange;
import org.groovemend.ledger.AppliedStage;
import org.groovemend.ledger.Ledger;

/**
 * Which edits are to be taken back: those that meet every kind of condition that is stated, and of
 * each kind any one. A list that is empty states nothing.
 *
 * @param edits numbers in the ledger
 * @param stages keys of repair stages
 * @param channels 0 based
 * @param ranges stretches that an edit reaches into
 * @param belowMargin the statistic stands less than this above its threshold; null for no such
 *     condition
 * @param why in words for people; may be empty
 * @param by who decides; may be empty
 */
public record EditChoice(
    List<Numbers> edits,
    List<String> stages,
    List<Integer> channels,
    List<TimeRange> ranges,
    Double belowMargin,
    String why,
    String by) {

  /**
   * Edits that follow one another in the ledger.
   *
   * @param first from 1
   * @param last not before the first
   */
  public record Numbers(long first, long last) {
    public Numbers {
      if (first < 1 || last < first) {
        throw new IllegalArgumentException(
            "edits " + first + " to " + last + " are none; they count from 1");
      }
    }
  }

  public EditChoice {
    edits = List.copyOf(edits);
    stages = List.copyOf(stages);
    channels = List.copyOf(channels);
    ranges = List.copyOf(ranges);
  }

  /** True if nothing is stated. */
  public boolean isEmpty() {
    return edits.isEmpty()
        && stages.isEmpty()
        && channels.isEmpty()
        && ranges.isEmpty()
        && belowMargin == null;
  }

  /**
   * The choice as decisions about a ledger: rules, or single edits where numbers were given.
   *
   * @throws RequestRefusedException if it names what the ledger does not have
   */
  DecisionFile decide(Ledger ledger, Instant now) throws IOException {
    requireThere(ledger);
    String at = now.truncatedTo(ChronoUnit.SECONDS).toString();
    List<Rule> rules = rules(ledger.header().original().format(), at);
    SortedMap<Long, Decision> decisions = new TreeMap<>();
    if (!edits.isEmpty()) {
      ledger.forEachEdit(
          edit -> {
            boolean numbered =
                edits.stream()
                    .anyMatch(n -> n.first() <= edit.number() && edit.number() <= n.last());
            if (numbered && rules.stream().anyMatch(rule -> rule.meets(edit))) {
              decisions.put(edit.number(), new Decision(edit.number(), Verdict.UNDO, why, at));
            }
          });
    }
    return new DecisionFile(
        LedgerName.of(ledger), by, edits.isEmpty() ? rules : List.of(), decisions, null);
  }

  /** One for each way to meet the conditions. */
  private List<Rule> rules(AudioFormat format, String at) {
    List<Rule> rules = new ArrayList<>();
    for (String stage : orNull(stages)) {
      for (Integer channel : orNull(channels)) {
        for (TimeRange range : orNull(ranges)) {
          Long from = range == null ? null : format.frames(range.fromSeconds());
          Long to = range == null ? null : Math.max(from + 1, format.frames(range.toSeconds()));
          rules.add(new Rule(Verdict.UNDO, stage, channel, from, to, belowMargin, why, at));
        }
      }
    }
    return rules;
  }

  private static <T> List<T> orNull(List<T> stated) {
    return stated.isEmpty() ? Arrays.asList((T) null) : stated;
  }

  private void requireThere(Ledger ledger) {
    List<AppliedStage> applied = ledger.header().stages();
    for (String stage : stages) {
      AppliedStage found =
          applied.stream().filter(s -> s.name().equals(stage)).findFirst().orElse(null);
      if (found == null) {
        throw new RequestRefusedException(
            "the ledger has no stage "
                + stage
                + "; it has "
                + String.join(", ", applied.stream().map(AppliedStage::name).toList()));
      }
      if (found.kind().equals(AppliedStage.SIGNAL)) {
        throw new RequestRefusedException(
            "the stage "
                + stage
                + " may touch any sample and has no single edits to take back; restore the side anew without it");
      }
    }
    int has = ledger.header().original().format().channels();
    for (int channel : channels) {
      if (channel >= has) {
        throw new RequestRefusedException("the side has one channel, there is no right one");
      }
    }
    long last = ledger.totals().edits();
    for (Numbers numbers : edits) {
      if (numbers.last() > last) {
        throw new RequestRefusedException(
            "there is no edit "
                + numbers.last()
                + " in "
                + FilePath.name(ledger.path())
                + (last == 0 ? "; it has none" : "; its edits are 1 to " + last));
      }
    }
  }
}
