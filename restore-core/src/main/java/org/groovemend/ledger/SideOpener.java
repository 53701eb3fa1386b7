package org.groovemend.ledger;

import java.io.IOException;
import java.nio.file.Path;
import org.groovemend.audio.SideReader;

/** Opens an audio file of any container, read-only. */
@FunctionalInterface
public interface SideOpener {
  SideReader open(Path path) throws IOException;
}
