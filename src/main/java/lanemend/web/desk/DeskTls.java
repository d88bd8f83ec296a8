package lanemend.web.desk;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.X509Certificate;
import java.util.Collections;
import org.eclipse.jetty.http.HttpVersion;
import org.eclipse.jetty.server.Connector;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.SecureRequestCustomizer;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.SslConnectionFactory;
import org.eclipse.jetty.util.ssl.SslContextFactory;

/** TLS of the desk's own, by Jetty over the platform's implementation: versions 1.2 and 1.3. */
final class DeskTls {
  private DeskTls() {}

  /**
   * Reads the keys once, so that what is wrong with them is said before anything is started.
   *
   * @throws IllegalStateException with one sentence
   */
  static void check(Door.Tls tls) {
    try (InputStream in = Files.newInputStream(tls.keystore())) {
      KeyStore keys = KeyStore.getInstance("PKCS12");
      keys.load(in, tls.password().toCharArray());
      for (String alias : Collections.list(keys.aliases())) {
        if (keys.isKeyEntry(alias) && keys.getCertificate(alias) instanceof X509Certificate x) {
          x.checkValidity();
          return;
        }
      }
      throw new IllegalStateException(tls + " holds no key with a certificate");
    } catch (IOException | GeneralSecurityException e) {
      throw new IllegalStateException(
          tls
              + " cannot be used for TLS ("
              + e.getMessage()
              + "): expected a PKCS #12 file with a"
              + " key, its certificate, in force today, and the file's password",
          e);
    }
  }

  static Connector connector(
      Server server, HttpConfiguration http, Door.Tls tls, String address, int port) {
    SslContextFactory.Server ssl = new SslContextFactory.Server();
    ssl.setKeyStorePath(tls.keystore().toUri().toString());
    ssl.setKeyStoreType("PKCS12");
    ssl.setKeyStorePassword(tls.password());
    ssl.setIncludeProtocols("TLSv1.2", "TLSv1.3");
    HttpConfiguration secure = new HttpConfiguration(http);
    SecureRequestCustomizer customizer = new SecureRequestCustomizer();
    // Guard looks at the name that was asked for, with an answer people can read.
    customizer.setSniHostCheck(false);
    secure.addCustomizer(customizer);
    ServerConnector connector =
        new ServerConnector(
            server,
            new SslConnectionFactory(ssl, HttpVersion.HTTP_1_1.asString()),
            new HttpConnectionFactory(secure));
    connector.setHost(address);
    connector.setPort(port);
    return connector;
  }
}
