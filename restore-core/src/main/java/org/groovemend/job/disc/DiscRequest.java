package org.groovemend.job.disc;

import java.nio.file.Path;

/**
 * Which disc to draw.
 *
 * @param ledger of the restored side
 * @param picture the file to write, or null for NAME.disc.png beside the ledger
 * @param rpm speed of the turntable as a person states it; NaN to tell it from the repairs
 * @param replace true to write over the picture if it is there
 */
public record DiscRequest(Path ledger, Path picture, double rpm, boolean replace) {}
