package org.groovemend.tags;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import org.groovemend.audio.Words;

/**
 * Content of a LIST chunk of kind INFO: texts of a WAV file, each ended by a NUL and filled up to
 * an even length.
 *
 * <p>The specification (IBM and Microsoft, Multimedia Programming Interface and Data Specifications
 * 1.0, 1991; from memory) names no encoding. UTF-8 is written, as general programs expect; the ID3
 * tag beside it says its encoding.
 */
final class InfoList {

  private InfoList() {}

  /** Empty if none of the tags has a place in the list. */
  static byte[] content(Tags tags) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    for (TagField field : TagField.values()) {
      String text = tags.get(field);
      if (text != null && field.info() != null) {
        byte[] ended = (text + "\0").getBytes(StandardCharsets.UTF_8);
        byte[] size = new byte[4];
        Words.putLittleEndian(ended.length, size, 0, 4);
        out.writeBytes(field.info().getBytes(StandardCharsets.US_ASCII));
        out.writeBytes(size);
        out.writeBytes(ended);
        if ((ended.length & 1) != 0) {
          out.write(0);
        }
      }
    }
    if (out.size() == 0) {
      return new byte[0];
    }
    ByteArrayOutputStream list = new ByteArrayOutputStream();
    list.writeBytes("INFO".getBytes(StandardCharsets.US_ASCII));
    list.writeBytes(out.toByteArray());
    return list.toByteArray();
  }
}
