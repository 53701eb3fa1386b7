package org.groovemend.tags;

/** Puts tags into the forms in which files keep them; in memory, no file is touched. */
interface TagCodec {

  /** Content of the VORBIS_COMMENT block of a FLAC file. */
  byte[] vorbisComment(Tags tags);

  /** Content of a PICTURE block of a FLAC file: a front cover. */
  byte[] picture(Cover cover);

  /**
   * A whole ID3 tag of version 2.4, UTF-8, without padding.
   *
   * @param coverOrNull a front cover
   */
  byte[] id3(Tags tags, Cover coverOrNull);
}
