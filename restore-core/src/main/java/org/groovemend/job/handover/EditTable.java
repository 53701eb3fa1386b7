package org.groovemend.job.handover;

import java.io.IOException;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.Words;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.measure.Decibels;

/**
 * The edits of a ledger as comma-separated values (RFC 4180 but for line ends, which are LF), one
 * line each, times as frames and as hours, minutes, seconds.
 */
public final class EditTable {

  private static final String HEAD =
      "start,end,channel,stage,statistic,threshold,method,model_order,gap_start,gap_end,"
          + "uncertainty_dbfs,number,in,out,sample_rate_hz,margin";

  private static final int CHUNK_FRAMES = 1 << 12;

  private final AudioFormat format;
  private final WordSource restoredOrNull;
  private final long[][] words;

  private EditTable(AudioFormat format, WordSource restoredOrNull) {
    this.format = format;
    this.restoredOrNull = restoredOrNull;
    this.words = new long[format.channels()][CHUNK_FRAMES];
  }

  /**
   * Writes the table.
   *
   * @param restoredOrNull the clean copy; if it is given, two columns more tell the level of what
   *     changed in the range between transfer and copy, by whichever stage
   */
  public static void write(Ledger ledger, WordSource restoredOrNull, Appendable out)
      throws IOException {
    EditTable table = new EditTable(ledger.header().original().format(), restoredOrNull);
    out.append(HEAD)
        .append(restoredOrNull == null ? "" : ",change_rms_dbfs,change_peak_dbfs")
        .append('\n');
    ledger.forEachEdit(edit -> table.line(edit, out));
  }

  private void line(LedgerEdit edit, Appendable out) throws IOException {
    out.append(
        String.join(
            ",",
            Long.toString(edit.start()),
            Long.toString(edit.end()),
            Integer.toString(edit.channel()),
            text(edit.stage()),
            plain(edit.statistic()),
            plain(edit.threshold()),
            text(edit.method()),
            Integer.toString(edit.modelOrder()),
            Long.toString(edit.gapStart()),
            Long.toString(edit.gapStart() + edit.gapFrames()),
            plain(edit.uncertaintyDbfs()),
            Long.toString(edit.number()),
            time(edit.start()),
            time(edit.end()),
            Integer.toString(format.sampleRateHz()),
            plain(edit.statistic() - edit.threshold())));
    if (restoredOrNull != null) {
      levels(edit, out);
    }
    out.append('\n');
  }

  private void levels(LedgerEdit edit, Appendable out) throws IOException {
    int width = format.bytesPerSample();
    double sum = 0;
    double peak = 0;
    for (long done = 0; done < edit.frames(); done += CHUNK_FRAMES) {
      int count = (int) Math.min(CHUNK_FRAMES, edit.frames() - done);
      restoredOrNull.readWords(edit.start() + done, count, words, 0);
      for (int i = 0; i < count; i++) {
        long before = Words.getLittleEndian(edit.original(), (int) (done + i) * width, width);
        double change =
            Words.toDouble(before, format) - Words.toDouble(words[edit.channel()][i], format);
        sum += change * change;
        peak = Math.max(peak, Math.abs(change));
      }
    }
    out.append(',').append(level(Decibels.ofPower(sum / edit.frames())));
    out.append(',').append(level(Decibels.ofAmplitude(peak)));
  }

  /**
   * Milliseconds are cut off, not rounded, so that an edit never seems to lie later than it does.
   */
  private String time(long frame) {
    int rate = format.sampleRateHz();
    long seconds = frame / rate;
    return String.format(
        Locale.ROOT,
        "%02d:%02d:%02d.%03d",
        seconds / 3600,
        seconds / 60 % 60,
        seconds % 60,
        frame % rate * 1000 / rate);
  }

  private static String level(double db) {
    return Double.isFinite(db) ? String.format(Locale.ROOT, "%.2f", db) : "";
  }

  private static String plain(double value) {
    return Double.isFinite(value) ? Double.toString(value) : "";
  }

  private static String text(String text) {
    return text.matches("[^\",\r\n]*") ? text : "\"" + text.replace("\"", "\"\"") + "\"";
  }
}
