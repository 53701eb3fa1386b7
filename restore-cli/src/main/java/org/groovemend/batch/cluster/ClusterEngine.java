package org.groovemend.batch.cluster;

import java.io.IOException;
import java.util.List;

/** Has parcels done by workers on many machines. */
public interface ClusterEngine {

  /** Is told what happens; may be called by one thread at a time only. */
  interface Taker {

    /** A worker has begun with a parcel, for the first time or again. */
    void begun(int parcel);

    /** What {@link ParcelJob} answered about a parcel. Only the first answer counts. */
    void take(int parcel, String answer);

    /**
     * A parcel is given up: its workers were lost again and again.
     *
     * @param reason for people, the end of a sentence
     */
    void lost(int parcel, String reason);

    /** Something that a person may want to read later. */
    void note(String line);

    /** Nothing happens for long; told to the person who waits. */
    void waiting(String sentence);

    /** Whether to give up what is not done. */
    boolean stopping();
  }

  /**
   * Hands out all parcels, the first ones first, and returns when each was taken or lost, or when
   * the taker is stopping.
   *
   * @throws ClusterException if the engine cannot be used, or ended before its time
   */
  void run(List<String> parcels, Taker taker) throws IOException;
}
