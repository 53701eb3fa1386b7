package org.groovemend.job.restore;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.Closeable;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.PriorityQueue;
import org.groovemend.stage.Repair;
import org.groovemend.stage.StageId;

/**
 * Repairs kept on disk between the treatment and the writing of the ledger, one file per stage, so
 * that memory does not grow with their number. Read back merged into the order of the ledger.
 */
public final class RepairLog implements Closeable {

  private static final int BUFFER_BYTES = 1 << 16;

  private final Path folder;
  private final DataOutputStream[] writers = new DataOutputStream[StageId.values().length];
  private final List<StageId> logged = new ArrayList<>();

  public RepairLog(Path folder) {
    this.folder = folder;
  }

  public void add(StageId stage, Repair repair) throws IOException {
    DataOutputStream out = writers[stage.ordinal()];
    if (out == null) {
      out =
          new DataOutputStream(
              new BufferedOutputStream(Files.newOutputStream(file(stage)), BUFFER_BYTES));
      writers[stage.ordinal()] = out;
      logged.add(stage);
    }
    Repair.Evidence evidence = repair.evidence();
    out.writeByte(repair.channel());
    out.writeLong(repair.start());
    out.writeLong(repair.end());
    out.writeDouble(evidence.statistic());
    out.writeDouble(evidence.threshold());
    out.writeUTF(evidence.method());
    out.writeInt(evidence.modelOrder());
    out.writeLong(evidence.gapStart());
    out.writeInt(evidence.gapFrames());
    out.writeDouble(evidence.uncertaintyDbfs());
  }

  /** Ends writing; the repairs can then be read, once or more. */
  public void finishWriting() throws IOException {
    for (DataOutputStream out : writers) {
      if (out != null) {
        out.close();
      }
    }
  }

  public Reader read() throws IOException {
    return new Reader();
  }

  @Override
  public void close() throws IOException {
    finishWriting();
    for (StageId stage : logged) {
      Files.deleteIfExists(file(stage));
    }
  }

  private Path file(StageId stage) {
    return folder.resolve(stage.key() + ".repairs");
  }

  /** All repairs in ledger order. */
  public final class Reader implements LoggedRepairs, Closeable {

    private final List<DataInputStream> inputs = new ArrayList<>();
    private final PriorityQueue<Head> heads =
        new PriorityQueue<>((a, b) -> LoggedRepair.LEDGER_ORDER.compare(a.repair(), b.repair()));

    private record Head(LoggedRepair repair, StageId stage, DataInputStream in) {}

    Reader() throws IOException {
      for (StageId stage : logged) {
        DataInputStream in =
            new DataInputStream(
                new BufferedInputStream(Files.newInputStream(file(stage)), BUFFER_BYTES));
        inputs.add(in);
        pull(stage, in);
      }
    }

    /** The next repair, or null after the last. */
    @Override
    public LoggedRepair next() throws IOException {
      Head head = heads.poll();
      if (head == null) {
        return null;
      }
      pull(head.stage(), head.in());
      return head.repair();
    }

    private void pull(StageId stage, DataInputStream in) throws IOException {
      int channel;
      try {
        channel = in.readByte();
      } catch (EOFException end) {
        return;
      }
      long start = in.readLong();
      long end = in.readLong();
      Repair.Evidence evidence =
          new Repair.Evidence(
              in.readDouble(),
              in.readDouble(),
              in.readUTF(),
              in.readInt(),
              in.readLong(),
              in.readInt(),
              in.readDouble());
      heads.add(new Head(new LoggedRepair(stage, channel, start, end, evidence), stage, in));
    }

    @Override
    public void close() throws IOException {
      for (DataInputStream in : inputs) {
        in.close();
      }
    }
  }
}
