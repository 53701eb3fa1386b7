package org.groovemend.report;

/**
 * A picture of the page.
 *
 * @param title short heading
 * @param altText what the picture shows, for someone who cannot see it
 * @param caption axes, units and what to look for
 * @param png the file's bytes
 */
public record Figure(String title, String altText, String caption, byte[] png) {

  public Figure {
    png = png.clone();
  }

  @Override
  public byte[] png() {
    return png.clone();
  }
}
