/**
 * FLAC after RFC 9639 (IETF, 2024): reading a side, writing the difference signal, and giving a
 * FLAC file back byte for byte.
 *
 * <p>Written for the archive rather than for the player. {@link
 * org.groovemend.audio.flac.FlacSideReader} hides no damage: the checksum of every frame header
 * (CRC-8) and frame (CRC-16), the numbering of the frames, the number of samples and the MD5 of the
 * samples all have to hold, or reading ends with the place of the damage. {@link
 * org.groovemend.audio.flac.FlacWriter} decodes each frame again and compares before it lets go of
 * the samples. {@link org.groovemend.audio.flac.FlacFrameRebuilder} gives the bytes of frames back
 * from a <em>recipe</em> (every coding decision, no samples) and the samples.
 *
 * <p>Method: a {@code FramePlan} holds the decisions of one frame. The decoder fills it while
 * decoding, {@code FramePlanner} chooses one for new samples, {@code FrameRecipe} keeps it in a few
 * bytes, and {@code FrameWriter} turns plan and samples into bytes, whoever made the plan.
 *
 * <p>Limits: mono and stereo, 16 to 32 bits, 8 to 384 kHz, no FLAC inside Ogg, one stream a file.
 * Fewer than 16 bits are refused. The encoder aims at speed: fixed blocks, fixed predictors and one
 * linear predictor.
 */
package org.groovemend.audio.flac;
