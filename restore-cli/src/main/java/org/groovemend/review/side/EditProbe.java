package org.groovemend.review.side;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.audio.WordSource;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.RangeWords;

/**
 * Looks at some edits spread over the side: are the words before and after those of the ledger? So
 * a file of another side, or of another treatment of this one, is noticed at once.
 */
final class EditProbe {

  private static final int LOOKS = 64;

  /** An edit whose words are not those of the ledger. */
  static final class DiffersException extends IOException {
    private static final long serialVersionUID = 1L;

    DiffersException(String message) {
      super(message);
    }
  }

  private long step = 1;
  private final List<LedgerEdit> edits = new ArrayList<>();

  /** How many will come is not known: of too many every second one is dropped. */
  void offer(LedgerEdit edit) {
    if ((edit.number() - 1) % step != 0) {
      return;
    }
    edits.add(edit);
    if (edits.size() == 2 * LOOKS) {
      step *= 2;
      edits.removeIf(kept -> (kept.number() - 1) % step != 0);
    }
  }

  void require(Ledger ledger, BothSides sides) throws IOException {
    RangeWords words = new RangeWords(ledger.header().original().format());
    for (LedgerEdit edit : edits) {
      byte[] before = words(words, sides.before(), edit);
      if (!Arrays.equals(before, edit.original())) {
        throw differs("transfer", edit);
      }
      int count = (int) edit.frames();
      long[][] after = read(sides.after(), edit);
      if (!words.digest(after[edit.channel()], 0, count).equals(edit.after())) {
        throw differs("clean copy", edit);
      }
    }
  }

  private static byte[] words(RangeWords words, WordSource side, LedgerEdit edit)
      throws IOException {
    return words.bytes(read(side, edit)[edit.channel()], 0, (int) edit.frames());
  }

  private static long[][] read(WordSource side, LedgerEdit edit) throws IOException {
    int count = (int) edit.frames();
    long[][] words = new long[side.format().channels()][count];
    side.readWords(edit.start(), count, words, 0);
    return words;
  }

  private static DiffersException differs(String role, LedgerEdit edit) {
    return new DiffersException(
        "The "
            + role
            + " is not the one of this ledger, or was altered: at edit "
            + edit.number()
            + ", frame "
            + edit.start()
            + ", it holds other samples; give the files that were written together with the ledger.");
  }
}
