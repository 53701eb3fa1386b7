/**
 * A folder into which a capture program writes, looked at again and again: which files are finished
 * and may be read.
 *
 * <p>Nothing is asked of the system but names, sizes and times, as any file manager asks, so it
 * works on network folders; a file is opened only once it has stood still, for reading, and closed
 * again. A file is finished when its size and time have not changed for a while <em>and</em> its
 * header says as much as there is: programs that fill in the header at the end, and copies under
 * way, are known by that. What never fits is judged as it is after a longer wait.
 */
package org.groovemend.watch;
