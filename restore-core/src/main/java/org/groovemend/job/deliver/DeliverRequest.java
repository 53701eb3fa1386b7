package org.groovemend.job.deliver;

import java.nio.file.Path;
import java.time.Instant;

/**
 * A delivery that is asked for.
 *
 * @param recipe what
 * @param out a folder that does not exist yet
 * @param toolVersion goes into every record
 * @param now start of the job, the same
 */
public record DeliverRequest(Recipe recipe, Path out, String toolVersion, Instant now) {}
