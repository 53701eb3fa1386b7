package org.groovemend.review;

import java.io.Closeable;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import org.groovemend.chain.Progress;
import org.groovemend.decisions.DecisionStore;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.VerificationException;
import org.groovemend.review.desk.DecisionDesk;
import org.groovemend.review.side.ReviewSide;

/** A review within the test's own process, of an invented side. */
final class OpenReview implements Closeable {

  final Path file;
  final ReviewServer server;
  private final ReviewSide side;
  private final DecisionDesk desk;

  OpenReview(Path folder, long frames, int edits) throws IOException, VerificationException {
    Ledger ledger = Ledger.open(InventedLedger.write(folder, "side", frames, edits, 3));
    file = folder.resolve("side.decisions.json");
    DecisionStore store = DecisionStore.open(file, ledger, "");
    side =
        ReviewSide.open(
            ledger.path(), new LedgerFiles(null, null, null), List.of(), Progress.SILENT);
    desk = new DecisionDesk(store, side.edits(), Clock.systemUTC());
    server =
        ReviewServer.start(
            side, desk, Map.of("ledger", "L", "decisions", "D", "command", "groovemend"), 0);
  }

  int port() {
    return URI.create(server.address()).getPort();
  }

  String token() {
    return URI.create(server.address()).getFragment().substring("token=".length());
  }

  @Override
  public void close() throws IOException {
    server.close();
    side.close();
    desk.close();
  }
}
