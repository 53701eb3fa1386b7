package org.groovemend.deliverable;

import java.util.List;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.flac.MetadataBlock;
import org.groovemend.tags.Cover;
import org.groovemend.tags.TagParts;
import org.groovemend.tags.Tags;

/**
 * What is said of a side in the files of its copies.
 *
 * @param tags may be none
 * @param cover picture of the label or sleeve, or null
 */
public record FileTags(Tags tags, Cover cover) {

  /** Nothing is said. */
  public static FileTags none() {
    return new FileTags(Tags.none(), null);
  }

  /** True if there is neither text nor picture. */
  public boolean isEmpty() {
    return tags.isEmpty() && cover == null;
  }

  List<WavChunk> wav() {
    return TagParts.wav(tags, cover);
  }

  byte[] aiffId3() {
    return TagParts.aiffId3(tags, cover);
  }

  List<MetadataBlock> flac() {
    return isEmpty() ? List.of() : TagParts.flac(tags, cover);
  }
}
