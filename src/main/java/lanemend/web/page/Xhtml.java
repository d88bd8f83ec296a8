package lanemend.web.page;

import java.io.StringWriter;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/**
 * Writes one XHTML page. Every text and attribute goes through the XML writer, so nothing in the
 * data can become markup, and the page is well formed or is not made at all.
 */
public final class Xhtml {
  private final StringWriter out = new StringWriter(1 << 16);
  private final XMLStreamWriter xml;

  public Xhtml() {
    try {
      xml = XMLOutputFactory.newDefaultFactory().createXMLStreamWriter(out);
      xml.writeDTD("<!DOCTYPE html>");
      xml.writeCharacters("\n");
    } catch (XMLStreamException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Opens an element; {@code attributes} are names and values in turn. */
  public Xhtml open(String tag, String... attributes) {
    try {
      xml.writeStartElement(tag);
      attributes(attributes);
      return this;
    } catch (XMLStreamException e) {
      throw new IllegalStateException("cannot open " + tag, e);
    }
  }

  /** An element that never has content, such as {@code br} or a drawn line. */
  public Xhtml empty(String tag, String... attributes) {
    try {
      xml.writeEmptyElement(tag);
      attributes(attributes);
      return this;
    } catch (XMLStreamException e) {
      throw new IllegalStateException("cannot write " + tag, e);
    }
  }

  public Xhtml close() {
    try {
      xml.writeEndElement();
      return this;
    } catch (XMLStreamException e) {
      throw new IllegalStateException("nothing to close", e);
    }
  }

  public Xhtml text(String text) {
    try {
      xml.writeCharacters(legal(text));
      return this;
    } catch (XMLStreamException e) {
      throw new IllegalStateException("cannot write text", e);
    }
  }

  /** An element that holds only text. */
  public Xhtml leaf(String tag, String text, String... attributes) {
    return open(tag, attributes).text(text).close();
  }

  /** A row of cells of one kind, {@code th} or {@code td}. */
  public Xhtml cells(String tag, String... texts) {
    for (String text : texts) {
      leaf(tag, text);
    }
    return this;
  }

  /** Ends the page and gives its text. */
  public String done() {
    try {
      xml.writeEndDocument();
      xml.close();
      return out.toString();
    } catch (XMLStreamException e) {
      throw new IllegalStateException("an element was not closed", e);
    }
  }

  /** A drawing coordinate: two decimals are a hundredth of a point. */
  public static String n(double value) {
    // Thousands of these on a map: formatting by pattern was an eighth of a sheet's time.
    return Double.toString(Math.rint(value * 100) / 100);
  }

  private void attributes(String... attributes) throws XMLStreamException {
    for (int i = 0; i < attributes.length; i += 2) {
      xml.writeAttribute(attributes[i], legal(attributes[i + 1]));
    }
  }

  /** XML 1.0 has no place for most control characters, not even escaped; a note may hold one. */
  private static String legal(String text) {
    return text.codePoints()
        .filter(
            c ->
                c == '\t'
                    || c == '\n'
                    || c == '\r'
                    || (c >= 0x20 && c <= 0xD7FF)
                    || (c >= 0xE000 && c <= 0xFFFD)
                    || c >= 0x10000)
        .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
        .toString();
  }
}
