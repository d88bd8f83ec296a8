/** Crew sheets: HTML and PDF pages a foreman can work from. */
package lanemend.web.sheet;
