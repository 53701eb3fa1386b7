package org.groovemend.job.side;

import java.util.List;
import java.util.Map;
import org.groovemend.audio.WavChunk;

/**
 * Chunks of a transfer that say something of its samples: a copy carries them over as they are, and
 * they then speak of the original.
 */
public final class CarriedChunks {

  /** From memory of the registered chunks of WAVE files. */
  private static final Map<String, String> OF_SAMPLES =
      Map.of(
          "PEAK", "the largest samples",
          "levl", "the outline of the peaks",
          "MD5 ", "a digest of the samples");

  private CarriedChunks() {}

  /** One sentence for each chunk that no longer fits changed samples. */
  public static List<String> remarks(List<WavChunk> chunks) {
    return chunks.stream()
        .map(WavChunk::id)
        .filter(OF_SAMPLES::containsKey)
        .distinct()
        .map(
            id ->
                "The "
                    + id.strip()
                    + " chunk, "
                    + OF_SAMPLES.get(id)
                    + ", was carried over as it is: it describes the original, not the copy.")
        .toList();
  }
}
