/**
 * Files in and out: roads, posts, events and agency settings, with a report of every row refused.
 */
package lanemend.exchange;
