/**
 * The page on which a person sees, hears and decides about the edits of a ledger: a server on the
 * loopback address and what it answers. {@code door} lets requests in, {@code side} holds edits,
 * pictures and sounds, {@code desk} the decisions; the page itself lies in the resources beside
 * this package. docs/explanation/review.md tells why it is made so.
 */
package org.groovemend.review;
