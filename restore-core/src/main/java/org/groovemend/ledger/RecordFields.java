package org.groovemend.ledger;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.util.Map;

/**
 * Takes the fields of a JSON object one by one in their fixed order, each of exactly the right
 * type.
 *
 * <p>Every method throws {@link WrongFieldException} if another field or type stands there, and the
 * JSON library's {@code JsonProcessingException} if the text is no JSON or a value does not fit.
 */
final class RecordFields {

  /**
   * A line that is not the record it should be; the message says what is wrong, without a full
   * stop.
   */
  static final class WrongFieldException extends Exception {
    private static final long serialVersionUID = 1L;

    WrongFieldException(String message) {
      super(message);
    }
  }

  private final JsonParser json;

  RecordFields(JsonParser json) {
    this.json = json;
  }

  private JsonToken token() throws IOException {
    return json.nextToken();
  }

  private void require(JsonToken token, JsonToken wanted, String what)
      throws IOException, WrongFieldException {
    if (token != wanted) {
      throw new WrongFieldException(
          what
              + " is due, found "
              + (token == null ? "the end of the line" : "\"" + json.getText() + "\""));
    }
  }

  void begin() throws IOException, WrongFieldException {
    require(token(), JsonToken.START_OBJECT, "an object {");
  }

  void begin(String name) throws IOException, WrongFieldException {
    name(name);
    begin();
  }

  /** The object ends here: an unknown further field is refused. */
  void end() throws IOException, WrongFieldException {
    require(token(), JsonToken.END_OBJECT, "the end of the object");
  }

  /** Nothing follows on the line. */
  void endOfLine() throws IOException, WrongFieldException {
    require(token(), null, "the end of the line");
  }

  private void name(String name) throws IOException, WrongFieldException {
    JsonToken token = token();
    if (token != JsonToken.FIELD_NAME || !name.equals(json.currentName())) {
      throw new WrongFieldException(
          "field \""
              + name
              + "\" is due, found "
              + (token == null ? "the end of the line" : "\"" + json.getText() + "\""));
    }
  }

  String text(String name) throws IOException, WrongFieldException {
    name(name);
    return text(token(), name);
  }

  private String text(JsonToken token, String name) throws IOException, WrongFieldException {
    require(token, JsonToken.VALUE_STRING, "a string for \"" + name + "\"");
    return json.getText();
  }

  long integer(String name) throws IOException, WrongFieldException {
    name(name);
    return integer(token(), name);
  }

  private long integer(JsonToken token, String name) throws IOException, WrongFieldException {
    require(token, JsonToken.VALUE_NUMBER_INT, "an integer for \"" + name + "\"");
    return json.getLongValue();
  }

  int smallInteger(String name) throws IOException, WrongFieldException {
    long value = integer(name);
    if (value != (int) value) {
      throw new WrongFieldException("\"" + name + "\" does not fit 32 bits");
    }
    return (int) value;
  }

  /** A number, NaN for null. */
  double number(String name) throws IOException, WrongFieldException {
    name(name);
    JsonToken token = token();
    if (token == JsonToken.VALUE_NULL) {
      return Double.NaN;
    }
    if (token != JsonToken.VALUE_NUMBER_INT) {
      require(token, JsonToken.VALUE_NUMBER_FLOAT, "a number or null for \"" + name + "\"");
    }
    return json.getDoubleValue();
  }

  boolean truth(String name) throws IOException, WrongFieldException {
    name(name);
    JsonToken token = token();
    if (token != JsonToken.VALUE_TRUE) {
      require(token, JsonToken.VALUE_FALSE, "true or false for \"" + name + "\"");
    }
    return token == JsonToken.VALUE_TRUE;
  }

  byte[] bytes(String name) throws IOException, WrongFieldException {
    name(name);
    require(token(), JsonToken.VALUE_STRING, "base64 for \"" + name + "\"");
    return json.getBinaryValue();
  }

  Map<String, Object> map(String name) throws IOException, WrongFieldException {
    name(name);
    begin();
    return LedgerJson.MAPPER.readValue(json, LedgerJson.MAP);
  }

  void beginArray(String name) throws IOException, WrongFieldException {
    name(name);
    require(token(), JsonToken.START_ARRAY, "an array for \"" + name + "\"");
  }

  /** True if the array goes on with an object, which has then begun; false if it has ended. */
  boolean nextObject() throws IOException, WrongFieldException {
    JsonToken token = token();
    if (token == JsonToken.END_ARRAY) {
      return false;
    }
    require(token, JsonToken.START_OBJECT, "an object {");
    return true;
  }

  /** The next string of an array, or null if it has ended. */
  String nextText() throws IOException, WrongFieldException {
    JsonToken token = token();
    return token == JsonToken.END_ARRAY ? null : text(token, "element");
  }

  /** The name of the next field of an object whose names are free, or null if it has ended. */
  String nextName() throws IOException, WrongFieldException {
    JsonToken token = token();
    if (token == JsonToken.END_OBJECT) {
      return null;
    }
    require(token, JsonToken.FIELD_NAME, "a field");
    return json.currentName();
  }

  /** The integer of a field whose name has been read. */
  long valueOf(String name) throws IOException, WrongFieldException {
    return integer(token(), name);
  }

  /** Begins an object that may be null instead; false if it is. */
  boolean beginUnlessNull(String name) throws IOException, WrongFieldException {
    name(name);
    JsonToken token = token();
    if (token == JsonToken.VALUE_NULL) {
      return false;
    }
    require(token, JsonToken.START_OBJECT, "an object or null for \"" + name + "\"");
    return true;
  }
}
