package lanemend.web.desk;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.util.Callback;

/**
 * What cannot even be read as a request is refused by the server below the desk: in the same form
 * as every refusal, without the server's own page.
 */
final class PlainErrors implements Request.Handler {
  @Override
  public boolean handle(Request request, Response response, Callback callback) {
    int status = response.getStatus() < 400 ? 400 : response.getStatus();
    Problem.Kind kind = status < 500 ? Problem.Kind.BAD_REQUEST : Problem.Kind.FAULT;
    Problem.Body body =
        new Problem.Body(
            kind.type(),
            kind.title,
            status,
            status < 500
                ? "the request cannot be read as HTTP, or its address holds what no address may"
                : "the server failed before the desk could answer",
            Map.of());
    response.getHeaders().put(HttpHeader.CONTENT_TYPE, "application/problem+json");
    // The server hangs up after it; who is not told sends the next request into nothing.
    response.getHeaders().put(HttpHeader.CONNECTION, "close");
    response.getHeaders().put("X-Content-Type-Options", "nosniff");
    response.getHeaders().put("Content-Security-Policy", "default-src 'none'");
    try {
      byte[] json = Api.JSON.writeValueAsString(body).getBytes(StandardCharsets.UTF_8);
      response.write(true, ByteBuffer.wrap(json), callback);
    } catch (JsonProcessingException e) {
      callback.failed(e);
    }
    return true;
  }
}
