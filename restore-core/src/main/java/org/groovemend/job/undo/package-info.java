/**
 * Edits of a copy taken back: which, the stages run again where that is needed, the proof before
 * anything is written, the new copy that names its parent.
 */
package org.groovemend.job.undo;
