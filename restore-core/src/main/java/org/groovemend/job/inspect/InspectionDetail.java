package org.groovemend.job.inspect;

import java.util.List;
import org.groovemend.hum.HumFinding;
import org.groovemend.measure.LongTermSpectrum;
import org.groovemend.rotation.RotationFinding;
import org.groovemend.rumble.RumbleFinding;
import org.groovemend.speed.SpeedFinding;
import org.groovemend.surfacenoise.GrooveNoise;
import org.groovemend.transfer.BandEdge;
import org.groovemend.transfer.Clipping;
import org.groovemend.transfer.Completeness;
import org.groovemend.transfer.Interruptions;
import org.groovemend.transfer.Offset;
import org.groovemend.transfer.Ticks;
import org.groovemend.transfer.TurnRepeat;
import org.groovemend.transfer.WordTruth;
import org.groovemend.walls.WallFinding;

/**
 * What the findings of an inspection were read from, for machines.
 *
 * @param completeness needle drop to lift
 * @param interruptions of the words
 * @param repeatedTurns of the groove
 * @param clipping by channel
 * @param offsets by channel
 * @param words bits
 * @param bandEdge of the spectrum
 * @param grooveNoise third octaves of the bare groove; empty if there is none
 * @param loudest third octaves of the loudest 3 s
 * @param hum of the middle of the side
 * @param rumble lateral and vertical
 * @param walls by octave
 * @param ticks by wall and size
 * @param turntable from the ticks
 * @param speed wow, tuning
 */
public record InspectionDetail(
    Completeness completeness,
    Interruptions interruptions,
    List<TurnRepeat> repeatedTurns,
    List<Clipping> clipping,
    List<Offset> offsets,
    WordTruth words,
    BandEdge bandEdge,
    List<GrooveNoise.Band> grooveNoise,
    List<LongTermSpectrum.Band> loudest,
    HumFinding hum,
    RumbleFinding rumble,
    WallFinding walls,
    Ticks ticks,
    RotationFinding turntable,
    SpeedFinding speed) {

  static InspectionDetail of(SideListening heard) {
    TransferMeters.Result meters = heard.meters();
    GrooveNoise groove = heard.stretches().groove();
    return new InspectionDetail(
        Completeness.of(heard.survey().track(), heard.survey().leadIn()),
        meters.interruptions(),
        meters.repeats(),
        meters.clipping(),
        meters.offsets(),
        meters.words(),
        meters.edge(),
        groove == null ? List.of() : groove.thirdOctaves(),
        heard.stretches().loudest(),
        heard.hum(),
        heard.rumble(),
        heard.walls(),
        meters.ticks(),
        heard.rotation(),
        heard.speed());
  }
}
