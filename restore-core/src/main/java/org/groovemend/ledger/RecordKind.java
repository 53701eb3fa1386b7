package org.groovemend.ledger;

/** The kinds of lines, in the order in which they stand in a ledger. */
enum RecordKind {
  HEADER("header"),
  CONTAINER("container"),
  ANALYSIS("analysis"),
  EDIT("edit"),
  TOTALS("totals"),
  CLOSING("closing");

  private final String key;

  RecordKind(String key) {
    this.key = key;
  }

  /** Value of the field "record". */
  String key() {
    return key;
  }

  /** The kind with this key, or null. */
  static RecordKind ofKey(String key) {
    for (RecordKind kind : values()) {
      if (kind.key.equals(key)) {
        return kind;
      }
    }
    return null;
  }

  static RecordKind of(LedgerRecord record) {
    if (record instanceof LedgerEdit) {
      return EDIT;
    } else if (record instanceof ContainerRecord) {
      return CONTAINER;
    } else if (record instanceof AnalysisRecord) {
      return ANALYSIS;
    } else if (record instanceof LedgerHeader) {
      return HEADER;
    } else if (record instanceof LedgerTotals) {
      return TOTALS;
    }
    return CLOSING;
  }
}
