package org.groovemend.job.inspect;

import java.util.List;
import org.groovemend.click.CaptureFinding;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.ledger.FileFacts;
import org.groovemend.limits.Finding;
import org.groovemend.limits.Judgement;
import org.groovemend.measure.Programme;
import org.groovemend.measure.SideLevels;

/**
 * What a transfer is and how worn.
 *
 * @param file identity of the file
 * @param parts its chunks or blocks in order
 * @param notices what was odd about it
 * @param seconds length
 * @param levels what it measures
 * @param programme loudness and true peak of all that is in the file, clicks and bare groove too
 * @param leadIn where the groove alone is heard
 * @param noiseFloorDbfs level of that stretch, dB re full scale; NaN if none was found
 * @param capture what the clicks tell about how the transfer was made, or null if it was stated
 * @param clicksPerMinute repairs that restore would make, per minute, all channels; from a sample
 *     of the side
 * @param clicksPerMinuteByChannel the same per channel
 * @param clickSampleSeconds how much of the side that sample is
 * @param limits name of the limits by which it was judged
 * @param verdict the gravest of the findings
 * @param findings one for every measure, in their order
 * @param detail what the findings were read from
 */
public record SideInspection(
    FileFacts file,
    List<String> parts,
    List<String> notices,
    double seconds,
    SideLevels levels,
    Programme programme,
    LeadInFinding leadIn,
    double noiseFloorDbfs,
    CaptureFinding capture,
    double clicksPerMinute,
    List<Double> clicksPerMinuteByChannel,
    double clickSampleSeconds,
    String limits,
    Judgement verdict,
    List<Finding> findings,
    InspectionDetail detail) {}
