package org.groovemend.ledger;

/** One line of a ledger. */
public sealed interface LedgerRecord
    permits LedgerHeader,
        ContainerRecord,
        AnalysisRecord,
        LedgerEdit,
        LedgerTotals,
        LedgerClosing {}
