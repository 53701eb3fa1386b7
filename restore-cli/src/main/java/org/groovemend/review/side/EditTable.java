package org.groovemend.review.side;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.groovemend.decisions.EditPlace;
import org.groovemend.ledger.LedgerEdit;

/**
 * All edits of a ledger but for their words, in columns: some 60 bytes an edit, so that a hundred
 * thousand of them are at hand at once. Index i holds the edit of number i + 1.
 *
 * <p>Once filled it does not change and is safe for use by several threads.
 */
public final class EditTable {

  private static final int FIRST_ROOM = 1024;

  private final List<String> stages = new ArrayList<>();
  private final List<String> methods = new ArrayList<>();
  private long[] start = new long[FIRST_ROOM];
  private int[] frames = new int[FIRST_ROOM];
  private byte[] channel = new byte[FIRST_ROOM];
  private byte[] stage = new byte[FIRST_ROOM];
  private byte[] method = new byte[FIRST_ROOM];
  private int[] modelOrder = new int[FIRST_ROOM];
  private double[] statistic = new double[FIRST_ROOM];
  private double[] threshold = new double[FIRST_ROOM];
  private float[] uncertaintyDbfs = new float[FIRST_ROOM];

  /** Largest end of the edits up to here: edits may overlap, so ends do not rise by themselves. */
  private long[] reach = new long[FIRST_ROOM];

  private int size;

  /** Empty; to be filled before anybody else sees it. */
  EditTable() {}

  /** Adds the next edit of the ledger. */
  void add(LedgerEdit edit) {
    if (size == start.length) {
      resize(Math.multiplyExact(2, size));
    }
    int i = size++;
    start[i] = edit.start();
    frames[i] = Math.toIntExact(edit.frames());
    channel[i] = (byte) edit.channel();
    stage[i] = index(stages, edit.stage());
    method[i] = index(methods, edit.method());
    modelOrder[i] = edit.modelOrder();
    statistic[i] = edit.statistic();
    threshold[i] = edit.threshold();
    uncertaintyDbfs[i] = (float) edit.uncertaintyDbfs();
    reach[i] = Math.max(edit.end(), i == 0 ? 0 : reach[i - 1]);
  }

  /** How many edits there are is known when all are read. */
  private void resize(int room) {
    start = Arrays.copyOf(start, room);
    frames = Arrays.copyOf(frames, room);
    channel = Arrays.copyOf(channel, room);
    stage = Arrays.copyOf(stage, room);
    method = Arrays.copyOf(method, room);
    modelOrder = Arrays.copyOf(modelOrder, room);
    statistic = Arrays.copyOf(statistic, room);
    threshold = Arrays.copyOf(threshold, room);
    uncertaintyDbfs = Arrays.copyOf(uncertaintyDbfs, room);
    reach = Arrays.copyOf(reach, room);
  }

  private static byte index(List<String> names, String name) {
    int at = names.indexOf(name);
    if (at < 0) {
      at = names.size();
      names.add(name);
      if (at > Byte.MAX_VALUE) {
        throw new IllegalArgumentException("more than " + Byte.MAX_VALUE + " stages or methods");
      }
    }
    return (byte) at;
  }

  public int size() {
    return size;
  }

  /** Keys of the stages that made edits. */
  public List<String> stages() {
    return List.copyOf(stages);
  }

  public long start(int i) {
    return start[i];
  }

  public long end(int i) {
    return start[i] + frames[i];
  }

  public int channel(int i) {
    return channel[i];
  }

  public String method(int i) {
    return methods.get(method[i]);
  }

  public int modelOrder(int i) {
    return modelOrder[i];
  }

  public double statistic(int i) {
    return statistic[i];
  }

  public double threshold(int i) {
    return threshold[i];
  }

  public double uncertaintyDbfs(int i) {
    return uncertaintyDbfs[i];
  }

  /** What decisions look at. */
  public EditPlace place(int i) {
    return new EditPlace(
        i + 1L, stages.get(stage[i]), channel[i], start[i], end(i), statistic[i] - threshold[i]);
  }

  /** First edit that may reach past a frame; all before it end there or earlier. */
  int firstReaching(long frame) {
    int at = Arrays.binarySearch(reach, 0, size, frame + 1);
    if (at < 0) {
      return -at - 1;
    }
    while (at > 0 && reach[at - 1] > frame) {
      at--;
    }
    return at;
  }

  /**
   * Indices, least margin of statistic over threshold first, of equal ones the earlier first; those
   * without a margin last.
   */
  int[] byDoubt() {
    return IntStream.range(0, size)
        .boxed()
        .sorted(Comparator.comparingDouble(i -> statistic[i] - threshold[i]))
        .mapToInt(i -> i)
        .toArray();
  }

  /**
   * For the page, little end first, one column behind the other: start (float64), frames (uint32),
   * statistic, threshold, margin (float32), indices by {@link #byDoubt()} (uint32), channel, stage
   * (uint8).
   */
  public byte[] columns() {
    ByteBuffer out =
        ByteBuffer.allocate(Math.multiplyExact(size, 8 + 4 + 3 * 4 + 4 + 2))
            .order(ByteOrder.LITTLE_ENDIAN);
    for (int i = 0; i < size; i++) {
      out.putDouble(start[i]);
    }
    for (int i = 0; i < size; i++) {
      out.putInt(frames[i]);
    }
    for (int i = 0; i < size; i++) {
      out.putFloat((float) statistic[i]);
    }
    for (int i = 0; i < size; i++) {
      out.putFloat((float) threshold[i]);
    }
    for (int i = 0; i < size; i++) {
      out.putFloat((float) (statistic[i] - threshold[i]));
    }
    for (int i : byDoubt()) {
      out.putInt(i);
    }
    out.put(channel, 0, size).put(stage, 0, size);
    return out.array();
  }
}
