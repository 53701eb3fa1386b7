package org.groovemend.job.deliver;

import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.BroadcastExtension;
import org.groovemend.deliverable.CopyKind;
import org.groovemend.deliverable.CopyLevel;
import org.groovemend.deliverable.CopyWish;
import org.groovemend.deliverable.GainPlan;
import org.groovemend.job.restore.CurvePlan;
import org.groovemend.job.side.SpeedChunks;
import org.groovemend.job.speed.SpeedCopy;

/** What stands around the samples of a WAV copy. */
final class CopyChunks {

  /** Chunks of the original that give way to tags that are stated. */
  private static final Set<String> TAGS = Set.of("LIST", "id3 ", "ID3 ");

  private final DeliverySide side;
  private final List<WavChunk> chunks;
  private final List<String> leftOut;

  private CopyChunks(DeliverySide side, List<WavChunk> chunks, List<String> leftOut) {
    this.side = side;
    this.chunks = chunks;
    this.leftOut = leftOut;
  }

  static CopyChunks of(
      DeliverRequest request, DeliverySide side, CopyWish wish, CopySource source, GainPlan gain)
      throws IOException {
    StringBuilder what = new StringBuilder(wish.kind().key()).append(" copy");
    if (wish.kind() == CopyKind.OBJECTIVE && side.curve() != null) {
      what.append("; curve").append(CurvePlan.doneInWords(side.curve()));
    }
    if (!side.asked().speed().neutral()) {
      what.append("; ").append(SpeedCopy.what(side.asked().speed()));
    }
    if (gain.gainDb() != 0) {
      what.append(String.format(Locale.ROOT, "; gain %+.2f dB", gain.gainDb()));
    }
    SpeedChunks all =
        SpeedChunks.of(
            source.file(),
            source.format(),
            wish.kind().words() + " of " + side.original().name(),
            what.toString(),
            request.toolVersion(),
            request.now());
    return new CopyChunks(side, all.chunks(), all.leftOut());
  }

  /** Names of those of the original that are not in the copy. */
  List<String> leftOut() {
    return leftOut;
  }

  /**
   * Of one part.
   *
   * @param level of it, for {@code bext}
   */
  List<WavChunk> of(CopyPart part, CopyLevel level) {
    return chunks.stream()
        .filter(chunk -> side.asked().tags().isEmpty() || !TAGS.contains(chunk.id()))
        .map(
            chunk ->
                chunk.id().equals(BroadcastExtension.CHUNK_ID)
                    ? WavChunk.of(chunk.id(), extension(chunk.content(), part, level))
                    : chunk)
        .toList();
  }

  private static byte[] extension(byte[] content, CopyPart part, CopyLevel level) {
    long first = BroadcastExtension.parse(content).timeReference();
    byte[] out =
        part.first() == 0
            ? content
            : BroadcastExtension.withTimeReference(content, first + part.first());
    return BroadcastExtension.withLoudness(
        out,
        level.loudness().integratedLufs(),
        level.loudness().rangeLu(),
        level.truePeakDbtp(),
        level.loudness().mostMomentaryLufs(),
        level.loudness().mostShortTermLufs());
  }
}
