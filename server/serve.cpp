#include "server/serve.hpp"

#include <fmt/format.h>
#include <httplib.h>

#include <array>
#include <utility>

namespace pitchboard {
namespace {

constexpr const char* kHost = "127.0.0.1";
/// A page asks for files and sends nothing.
constexpr std::size_t kLargestRequest = 4096;
constexpr int kPatience = 5;  ///< seconds

/// SOURCE  Content Security Policy level 3; Fetch; OWASP's list of security headers.
constexpr std::array<std::pair<const char*, const char*>, 7> kHeaders{{
    {"Content-Security-Policy",
     "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; object-src 'none'; base-uri 'none'; "
     "form-action 'none'; frame-ancestors 'none'"},
    {"X-Content-Type-Options", "nosniff"},
    {"Referrer-Policy", "no-referrer"},
    {"Cross-Origin-Opener-Policy", "same-origin"},
    {"Cross-Origin-Resource-Policy", "same-origin"},
    {"Permissions-Policy", "camera=(), geolocation=(), microphone=()"},
    {"Cache-Control", "no-cache"},
}};

}  // namespace

std::optional<Problem> serve(const std::filesystem::path& page, int port,
                             const std::function<void(const std::string&)>& ready) {
  if (!std::filesystem::exists(page / "index.html"))
    return Problem{page.string(), "there is no page in this folder", "build it: script/page"};
  httplib::Server server;
  server.set_payload_max_length(kLargestRequest);
  server.set_read_timeout(kPatience);
  server.set_write_timeout(kPatience);
  server.set_file_extension_and_mimetype_mapping("wasm", "application/wasm");
  server.set_file_extension_and_mimetype_mapping("webmanifest", "application/manifest+json");
  server.set_file_extension_and_mimetype_mapping("woff2", "font/woff2");
  if (!server.set_mount_point("/", page.string()))
    return Problem{page.string(), "this folder cannot be served", "name the folder of the built page"};
  const bool any = port == 0;
  if (any) port = server.bind_to_any_port(kHost);
  if (any ? port < 0 : !server.bind_to_port(kHost, port))
    return Problem{"--port", "this port is taken", "name another, or leave it out for any that is free"};
  const std::string own = fmt::format("{}:{}", kHost, port), named = fmt::format("localhost:{}", port);
  server.set_pre_routing_handler([&](const httplib::Request& request, httplib::Response& response) {
    const std::string host = request.get_header_value("Host");
    const bool ours = host == own || host == named;
    if (ours && (request.method == "GET" || request.method == "HEAD"))
      return httplib::Server::HandlerResponse::Unhandled;
    response.status = ours ? 405 : 403;
    return httplib::Server::HandlerResponse::Handled;
  });
  server.set_post_routing_handler([](const httplib::Request&, httplib::Response& response) {
    for (const auto& [name, value] : kHeaders) response.set_header(name, value);
  });
  ready(fmt::format("http://{}/", own));
  if (!server.listen_after_bind()) return Problem{own, "serving stopped", "start it again"};
  return std::nullopt;
}

}  // namespace pitchboard
