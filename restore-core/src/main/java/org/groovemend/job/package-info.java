/**
 * The verbs a person asks for. A job puts the other rooms together: it reads, plans, runs, records
 * and delivers, and holds no arithmetic on sound of its own.
 */
package org.groovemend.job;
