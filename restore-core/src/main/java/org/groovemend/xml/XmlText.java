package org.groovemend.xml;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/**
 * An indented XML 1.0 document in UTF-8, kept in memory.
 *
 * <p>Characters that XML cannot hold (section 2.2), and line ends, which readers change, become
 * spaces; halves of surrogate pairs become question marks.
 */
public final class XmlText {

  private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
  private final XMLStreamWriter out;
  private int depth;

  /**
   * Begins a document and its outermost element.
   *
   * @param namespace of all elements
   */
  public XmlText(String root, String namespace) {
    try {
      out =
          XMLOutputFactory.newDefaultFactory()
              .createXMLStreamWriter(bytes, StandardCharsets.UTF_8.name());
      out.writeStartDocument(StandardCharsets.UTF_8.name(), "1.0");
    } catch (XMLStreamException e) {
      throw trouble(e);
    }
    begin(root);
    run(() -> out.writeDefaultNamespace(namespace));
  }

  private interface Step {
    void run() throws XMLStreamException;
  }

  private static void run(Step step) {
    try {
      step.run();
    } catch (XMLStreamException e) {
      throw trouble(e);
    }
  }

  private static IllegalStateException trouble(XMLStreamException e) {
    return new IllegalStateException("memory does not fail", e);
  }

  /** Declares a prefix for attributes of the element just begun. */
  public XmlText prefix(String prefix, String namespace) {
    run(() -> out.writeNamespace(prefix, namespace));
    return this;
  }

  /** Begins an element on a line of its own. */
  public XmlText begin(String element) {
    newLine();
    run(() -> out.writeStartElement(element));
    depth++;
    return this;
  }

  /** An attribute of the element just begun; a prefix may stand before its name. */
  public XmlText attribute(String name, String value) {
    run(() -> out.writeAttribute(name, clean(value)));
    return this;
  }

  /** Ends the element begun last. */
  public XmlText end() {
    depth--;
    newLine();
    run(out::writeEndElement);
    return this;
  }

  /** An element of text with attributes, names and values in turn. */
  public XmlText text(String element, String text, String... attributes) {
    newLine();
    run(
        () -> {
          out.writeStartElement(element);
          for (int i = 0; i < attributes.length; i += 2) {
            out.writeAttribute(attributes[i], clean(attributes[i + 1]));
          }
          out.writeCharacters(clean(text));
          out.writeEndElement();
        });
    return this;
  }

  /** Ends the outermost element and gives the document. */
  public byte[] finish() {
    end();
    run(
        () -> {
          out.writeCharacters("\n");
          out.writeEndDocument();
          out.close();
        });
    return bytes.toByteArray();
  }

  private void newLine() {
    run(() -> out.writeCharacters("\n" + "  ".repeat(depth)));
  }

  private static String clean(String text) {
    StringBuilder clean = new StringBuilder();
    text.codePoints()
        .forEach(
            c -> {
              if (c >= 0xd800 && c <= 0xdfff) {
                clean.append('?');
              } else if (Character.isISOControl(c) || c == 0xfffe || c == 0xffff) {
                clean.append(' ');
              } else {
                clean.appendCodePoint(c);
              }
            });
    return clean.toString();
  }
}
