package org.groovemend.tags;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Map;
import javax.imageio.ImageIO;

/** Invented tags and pictures. */
final class Examples {

  /** Every field, with characters of one to four bytes of UTF-8. */
  static final Tags FULL =
      new Tags(
          Map.ofEntries(
              Map.entry(TagField.TITLE, "Žofín; or, \"The Σ = 𝄞\" / Walzer – 花"),
              Map.entry(TagField.PERFORMER, "Öllä Ünder & his Band"),
              Map.entry(TagField.CONDUCTOR, "C. Onductor"),
              Map.entry(TagField.COMPOSER, "Aß Ćomposer"),
              Map.entry(TagField.SET, "An invented set"),
              Map.entry(TagField.DISC, "2"),
              Map.entry(TagField.DISCS, "3"),
              Map.entry(TagField.SIDE, "B"),
              Map.entry(TagField.TRACK, "4"),
              Map.entry(TagField.TRACKS, "12"),
              Map.entry(TagField.DATE, "1931-04"),
              Map.entry(TagField.ISSUED, "1932"),
              Map.entry(TagField.LABEL, "Nowhere Discs"),
              Map.entry(TagField.CATALOGUE_NUMBER, "ND 0001=X"),
              Map.entry(TagField.MATRIX_NUMBER, "0xy-7 △"),
              Map.entry(TagField.ISRC, "XX-ABC-31-00007"),
              Map.entry(TagField.GENRE, "Waltz"),
              Map.entry(TagField.LANGUAGE, "mul"),
              Map.entry(TagField.HOLDER, "The Invented Archive"),
              Map.entry(TagField.SHELF_MARK, "Q 12/3"),
              Map.entry(TagField.ENGINEER, "N. O. Body"),
              Map.entry(TagField.RIGHTS, "1931 nobody's"),
              Map.entry(TagField.COMMENT, "first line\nsecond: ~ ü\n\nfourth")));

  static byte[] picture(String format, int width, int height) throws IOException {
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    for (int x = 0; x < width; x++) {
      image.setRGB(x, x % height, 0xff8800);
    }
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ImageIO.write(image, format, out);
    return out.toByteArray();
  }

  private Examples() {}
}
