package org.groovemend.audio.flac;

/**
 * A metadata block to be written between seek table and frames (RFC 9639 section 8).
 *
 * @param type {@link #VORBIS_COMMENT} or {@link #PICTURE}
 * @param content less than 16 MiB; not to be changed
 */
public record MetadataBlock(int type, byte[] content) {

  public static final int VORBIS_COMMENT = 4;
  public static final int PICTURE = 6;
  static final int MAX_BYTES = (1 << 24) - 1;

  public MetadataBlock {
    if (type != VORBIS_COMMENT && type != PICTURE) {
      throw new IllegalArgumentException("blocks of type " + type + " are not written");
    }
    if (content.length > MAX_BYTES) {
      throw new IllegalArgumentException(
          "a metadata block of " + content.length + " bytes; at most " + MAX_BYTES + " fit");
    }
  }
}
