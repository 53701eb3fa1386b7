/**
 * The verbs a person asks for, a room each. A job puts the other rooms together: it reads, plans,
 * runs, records and delivers, and holds no arithmetic on sound of its own. What several jobs share
 * lies in {@code side}, and {@code restore} is built upon by jobs that run its stages again; the
 * rooms depend one way.
 */
package org.groovemend.job;
