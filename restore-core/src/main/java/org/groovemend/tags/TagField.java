package org.groovemend.tags;

import java.util.Locale;

/**
 * What can be said of a side or a band, and under which name each kind of file keeps it.
 *
 * <p>Vorbis comment names are those of the specification's minimal list where it has one; the
 * others are in general use or, where nothing is, the plain English word in capitals. ID3 frames
 * are those of version 2.4; what has no frame of its own is a TXXX with the Vorbis name. LIST INFO
 * names are those of the RIFF specification of 1991, and IPRT, which it lacks and general programs
 * read. Its "ISRC" means the one who supplied the original and is left out, since programs show it
 * as the recording code. All names from memory; {@code OtherProgramsReadTagsTest} has other
 * programs read them.
 *
 * @see <a href="https://xiph.org/vorbis/doc/v-comment.html">Vorbis comment field names</a>
 * @see <a href="https://id3.org/id3v2.4.0-frames">ID3 2.4.0 native frames</a>
 */
public enum TagField {
  /** Name of the piece. */
  TITLE("TITLE", "TIT2", "INAM", Form.LINE),
  /** Who is heard. */
  PERFORMER("ARTIST", "TPE1", "IART", Form.LINE),
  CONDUCTOR("CONDUCTOR", "TPE3", null, Form.LINE),
  COMPOSER("COMPOSER", "TCOM", null, Form.LINE),
  /** Name of the album or set the side belongs to. */
  SET("ALBUM", "TALB", "IPRD", Form.LINE),
  /** Disc of a set, from 1. */
  DISC("DISCNUMBER", "TPOS", null, Form.NUMBER),
  /** How many discs the set has. */
  DISCS("DISCTOTAL", "TPOS", null, Form.NUMBER),
  /** The side's letter or number as the label has it. */
  SIDE("SIDE", null, null, Form.LINE),
  /** Place among the bands, from 1. */
  TRACK("TRACKNUMBER", "TRCK", "IPRT", Form.NUMBER),
  /** How many bands there are. */
  TRACKS("TRACKTOTAL", "TRCK", null, Form.NUMBER),
  /** When it was recorded: yyyy, yyyy-mm or yyyy-mm-dd. */
  DATE("DATE", "TDRC", "ICRD", Form.DATE),
  /** When the disc was issued, in the same form. */
  ISSUED("ORIGINALDATE", "TDOR", null, Form.DATE),
  /** The company that issued the disc. */
  LABEL("ORGANIZATION", "TPUB", null, Form.LINE),
  CATALOGUE_NUMBER("CATALOGNUMBER", null, null, Form.LINE),
  /** Number of the matrix, with take, as scratched or stamped into the disc. */
  MATRIX_NUMBER("MATRIXNUMBER", null, null, Form.LINE),
  /** International Standard Recording Code, ISO 3901; hyphens are taken out. */
  ISRC("ISRC", "TSRC", null, Form.ISRC),
  GENRE("GENRE", "TCON", "IGNR", Form.LINE),
  /** Language sung or spoken, three letters of ISO 639-2. */
  LANGUAGE("LANGUAGE", "TLAN", "ILNG", Form.LANGUAGE),
  /** Who owns the disc. */
  HOLDER("HOLDER", null, null, Form.LINE),
  SHELF_MARK("SHELFMARK", null, "IARL", Form.LINE),
  /** Who made the transfer. */
  ENGINEER("ENGINEER", null, "IENG", Form.LINE),
  /** Note on rights. */
  RIGHTS("COPYRIGHT", "TCOP", "ICOP", Form.LINE),
  /** Free text; the only one that may have several lines. */
  COMMENT("DESCRIPTION", "COMM", "ICMT", Form.LINES);

  /** What a text must be like. */
  enum Form {
    LINE,
    LINES,
    NUMBER,
    DATE,
    ISRC,
    LANGUAGE
  }

  private final String vorbis;
  private final String id3;
  private final String info;
  private final Form form;

  TagField(String vorbis, String id3, String info, Form form) {
    this.vorbis = vorbis;
    this.id3 = id3;
    this.info = info;
    this.form = form;
  }

  /** The name in recipes and for people: "catalogue-number". */
  public String key() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Name of the Vorbis comment, also that of a TXXX frame. */
  public String vorbis() {
    return vorbis;
  }

  /** Frame of ID3 2.4, or null: TXXX. */
  String id3() {
    return id3;
  }

  /** Chunk in LIST INFO, or null: none. */
  String info() {
    return info;
  }

  Form form() {
    return form;
  }
}
