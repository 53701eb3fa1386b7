package org.groovemend.report;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import javax.imageio.ImageIO;
import javax.imageio.stream.MemoryCacheImageInputStream;
import javax.imageio.stream.MemoryCacheImageOutputStream;

/** Puts figures below one another, each under its title. */
final class StackedPicture {
  private static final int HEAD = Plot.LINE + 14;
  private static final int GAP = 12;

  private StackedPicture() {}

  static byte[] draw(List<Figure> figures) {
    try {
      List<BufferedImage> images = new ArrayList<>();
      int width = Plot.WIDTH;
      int height = 0;
      for (Figure figure : figures) {
        BufferedImage image =
            ImageIO.read(new MemoryCacheImageInputStream(new ByteArrayInputStream(figure.png())));
        images.add(image);
        width = Math.max(width, image.getWidth());
        height += HEAD + image.getHeight() + GAP;
      }
      Sheet titles = new Sheet(width, Math.max(1, height));
      int y = 0;
      for (int i = 0; i < figures.size(); i++) {
        titles.text(figures.get(i).title(), 12, y + 12, Plot.SCALE, Sheet.INK);
        titles.horizontal(12, width - 13, y + HEAD - 4, Sheet.RULE);
        y += HEAD + images.get(i).getHeight() + GAP;
      }
      BufferedImage whole = titles.image();
      y = 0;
      for (BufferedImage image : images) {
        put(image, whole, y + HEAD);
        y += HEAD + image.getHeight() + GAP;
      }
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      try (MemoryCacheImageOutputStream out = new MemoryCacheImageOutputStream(bytes)) {
        ImageIO.write(whole, "png", out);
      }
      return bytes.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e); // memory does not fail
    }
  }

  /** Pictures of our own have the same colours: their bytes are taken over as they are. */
  private static void put(BufferedImage image, BufferedImage whole, int top) {
    if (image.getColorModel().equals(whole.getColorModel())) {
      whole.getRaster().setDataElements(0, top, image.getRaster());
      return;
    }
    var graphics = whole.createGraphics();
    graphics.drawImage(image, 0, top, null);
    graphics.dispose();
  }
}
