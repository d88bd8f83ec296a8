/**
 * Who may use the desk: accounts with their roles and passwords, and the audit list. They lie in a
 * file of their own, apart from the agency's GeoPackage, which is given away.
 */
package lanemend.accounts;
