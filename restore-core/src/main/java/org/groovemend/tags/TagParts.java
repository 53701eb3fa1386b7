package org.groovemend.tags;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.flac.MetadataBlock;

/**
 * Tags as parts of a file that is about to be written. They go into the file while it is written,
 * with its samples: no finished file is ever opened again to be tagged. The same tags give the same
 * bytes.
 */
public final class TagParts {

  private static final TagCodec CODEC = new JaudiotaggerCodec();

  private TagParts() {}

  /**
   * Chunks for a WAV, RF64 or BW64 file: LIST INFO for what it has names for, and an {@code id3 }
   * chunk with everything and the cover. Put them behind the samples, and leave out a LIST INFO and
   * an ID3 chunk of the original.
   *
   * @param coverOrNull picture of the label or sleeve
   * @return none if there is nothing to say
   */
  public static List<WavChunk> wav(Tags tags, Cover coverOrNull) {
    List<WavChunk> chunks = new ArrayList<>();
    byte[] info = InfoList.content(tags);
    if (info.length > 0) {
      chunks.add(WavChunk.of("LIST", info));
    }
    if (!tags.isEmpty() || coverOrNull != null) {
      chunks.add(WavChunk.of("id3 ", CODEC.id3(tags, coverOrNull)));
    }
    return chunks;
  }

  /**
   * Content of the {@code ID3 } chunk of an AIFF file, which stands behind SSND.
   *
   * @return empty if there is nothing to say
   */
  public static byte[] aiffId3(Tags tags, Cover coverOrNull) {
    return tags.isEmpty() && coverOrNull == null ? new byte[0] : CODEC.id3(tags, coverOrNull);
  }

  /** Metadata blocks for a FLAC file: VORBIS_COMMENT and, with a cover, PICTURE. */
  public static List<MetadataBlock> flac(Tags tags, Cover coverOrNull) {
    List<MetadataBlock> blocks = new ArrayList<>();
    blocks.add(new MetadataBlock(MetadataBlock.VORBIS_COMMENT, CODEC.vorbisComment(tags)));
    if (coverOrNull != null) {
      blocks.add(new MetadataBlock(MetadataBlock.PICTURE, CODEC.picture(coverOrNull)));
    }
    return blocks;
  }
}
