#include "paper/pdf.hpp"

#include <cairo-pdf.h>

#include <array>
#include <cstdlib>
#include <memory>

#include "engine/draw/ink.hpp"
#include "engine/draw/text_metrics.hpp"

namespace pitchboard {
namespace {

struct SurfaceCloser {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct ContextCloser {
  void operator()(cairo_t* context) const { cairo_destroy(context); }
};
struct FaceCloser {
  void operator()(cairo_font_face_t* face) const { cairo_font_face_destroy(face); }
};
using Surface = std::unique_ptr<cairo_surface_t, SurfaceCloser>;
using Context = std::unique_ptr<cairo_t, ContextCloser>;
using Face = std::unique_ptr<cairo_font_face_t, FaceCloser>;

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

/// Cairo finds the family through the system's font configuration; it falls back by itself where B612 is not installed.
Face face(bool bold, bool mono) {
  return Face(cairo_toy_font_face_create(mono ? kMonoFamily.data() : kFontFamily.data(), CAIRO_FONT_SLANT_NORMAL,
                                         bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL));
}

class Page {
 public:
  explicit Page(cairo_t* context) : context_(context) {
    for (const bool mono : {false, true}) {
      for (const bool bold : {false, true}) faces_[index(bold, mono)] = face(bold, mono);
    }
    cairo_set_line_cap(context_, CAIRO_LINE_CAP_ROUND);
    cairo_set_line_join(context_, CAIRO_LINE_JOIN_ROUND);
  }

  void draw(const Sheet& sheet) {
    for (const SheetPath& path : sheet.paths) draw(path);
    for (const SheetText& text : sheet.texts) draw(text);
  }

 private:
  static std::size_t index(bool bold, bool mono) { return (bold ? 1U : 0U) + (mono ? 2U : 0U); }

  void colour(std::string_view hex) {
    const long rgb = std::strtol(std::string(hex.substr(1)).c_str(), nullptr, 16);
    const auto channel = [&](int shift) { return static_cast<double>(rgb >> shift & 0xFF) / 255; };
    cairo_set_source_rgb(context_, channel(16), channel(8), channel(0));
  }

  void trace(const std::vector<SheetPoint>& points, bool closed) {
    for (std::size_t i = 0; i < points.size(); ++i) {
      (i == 0 ? cairo_move_to : cairo_line_to)(context_, points[i].x, points[i].y);
    }
    if (closed) cairo_close_path(context_);
  }

  void draw(const SheetPath& path) {
    if (const std::string_view fill = fill_of(path); !fill.empty()) {
      colour(fill);
      trace(path.points, true);
      cairo_fill(context_);
    }
    colour(kInk);
    cairo_set_dash(context_, nullptr, 0, 0);
    cairo_set_line_width(context_, pen_width(Pen::thin));
    for (const auto& stroke : hatch_strokes(path)) trace(stroke, false);
    cairo_stroke(context_);
    if (!path.stroked) return;
    const auto dash = dashes(path);
    cairo_set_dash(context_, dash.data(), static_cast<int>(dash.size()), 0);
    cairo_set_line_width(context_, pen_width(path.pen));
    trace(path.points, path.closed);
    cairo_stroke(context_);
  }

  void draw(const SheetText& text) {
    cairo_save(context_);
    cairo_set_font_face(context_, faces_[index(text.bold, text.mono)].get());
    cairo_set_font_size(context_, text.size);
    cairo_translate(context_, text.at.x, text.at.y);
    if (text.upwards) cairo_transform(context_, &kQuarterTurn);
    const double width = text_width(text);
    cairo_move_to(context_, text.anchor == Anchor::start ? 0 : text.anchor == Anchor::middle ? -width / 2 : -width, 0);
    cairo_show_text(context_, text.text.c_str());
    cairo_restore(context_);
  }

  static constexpr cairo_matrix_t kQuarterTurn{0, -1, 1, 0, 0, 0};
  cairo_t* context_;
  std::array<Face, 4> faces_;
};

}  // namespace

std::expected<std::string, std::string> to_pdf(const std::vector<Sheet>& sheets, const PdfInfo& info) {
  std::string bytes;
  const Surface surface(cairo_pdf_surface_create_for_stream(append, &bytes, 612, 792));
  const std::string date = (info.date.empty() ? "1970-01-01" : info.date) + "T00:00:00Z";
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, info.title.c_str());
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR, "Pitchboard");
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, date.c_str());
  const Context context(cairo_create(surface.get()));
  Page page(context.get());
  for (const Sheet& sheet : sheets) {
    cairo_pdf_surface_set_size(surface.get(), sheet.width, sheet.height);
    page.draw(sheet);
    cairo_show_page(context.get());
  }
  const cairo_status_t drawn = cairo_status(context.get());
  cairo_surface_finish(surface.get());
  const cairo_status_t written = cairo_surface_status(surface.get());
  for (const cairo_status_t status : {drawn, written}) {
    if (status != CAIRO_STATUS_SUCCESS) return std::unexpected(std::string("PDF: ") + cairo_status_to_string(status));
  }
  return bytes;
}

}  // namespace pitchboard
