/** What any SQLite file of ours needs, whatever is in it: copies, and the way back. */
package lanemend.sqlite;
