package org.groovemend.sealed;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Takes the members of a JSON object one by one, each of the kind that is expected, and in the end
 * sees to it that none is left over.
 */
public final class Members {

  private final String name;
  private final Map<String, Object> left;

  /**
   * @param name of the document and the place in it, for messages
   */
  public Members(String name, Map<String, Object> content) {
    this.name = name;
    this.left = new LinkedHashMap<>(content);
  }

  /** A text that must be there. */
  public String text(String member) throws SealedDocumentException {
    String text = textOrNull(member);
    if (text == null) {
      throw wrong(member, "a text");
    }
    return text;
  }

  /** A text, or null. */
  public String textOrNull(String member) throws SealedDocumentException {
    Object value = take(member);
    if (value != null && !(value instanceof String)) {
      throw wrong(member, "a text");
    }
    return (String) value;
  }

  /** A whole number that must be there. */
  public long whole(String member) throws SealedDocumentException {
    Long value = wholeOrNull(member);
    if (value == null) {
      throw wrong(member, "a whole number");
    }
    return value;
  }

  /** A whole number, or null. */
  public Long wholeOrNull(String member) throws SealedDocumentException {
    Object value = take(member);
    if (value != null && !(value instanceof Long)) {
      throw wrong(member, "a whole number");
    }
    return (Long) value;
  }

  /** A number, or null. */
  public Double numberOrNull(String member) throws SealedDocumentException {
    Object value = take(member);
    if (value != null && !(value instanceof Number)) {
      throw wrong(member, "a number");
    }
    return value == null ? null : ((Number) value).doubleValue();
  }

  /** An object that must be there. */
  public Members object(String member) throws SealedDocumentException {
    Members object = objectOrNull(member);
    if (object == null) {
      throw wrong(member, "an object");
    }
    return object;
  }

  /** An object, or null. */
  public Members objectOrNull(String member) throws SealedDocumentException {
    Object value = take(member);
    return value == null ? null : ofObject(member, value);
  }

  /** A list of objects that must be there. */
  public List<Members> objects(String member) throws SealedDocumentException {
    if (!(take(member) instanceof List<?> list)) {
      throw wrong(member, "a list");
    }
    List<Members> objects = new ArrayList<>();
    for (Object each : list) {
      objects.add(ofObject(member + " " + (objects.size() + 1), each));
    }
    return objects;
  }

  /** To be called last. */
  public void none() throws SealedDocumentException {
    Set<String> names = left.keySet();
    if (!names.isEmpty()) {
      throw new SealedDocumentException(name + " has members that are not known: " + names + ".");
    }
  }

  private Members ofObject(String member, Object value) throws SealedDocumentException {
    if (!(value instanceof Map<?, ?> map)) {
      throw wrong(member, "an object");
    }
    Map<String, Object> content = new LinkedHashMap<>();
    map.forEach((key, each) -> content.put((String) key, each));
    return new Members(name + ", " + member, content);
  }

  private Object take(String member) throws SealedDocumentException {
    if (!left.containsKey(member)) {
      throw new SealedDocumentException(name + " has no member \"" + member + "\".");
    }
    return left.remove(member);
  }

  private SealedDocumentException wrong(String member, String kind) {
    return new SealedDocumentException(name + ": \"" + member + "\" is not " + kind + ".");
  }
}
