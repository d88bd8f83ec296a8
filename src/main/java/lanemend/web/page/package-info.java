/** What every printed page is made of: markup, drawings, words for values, paper, PDF. */
package lanemend.web.page;
