// The PDF against Cairo itself and the font file: widths, sizes, bytes.

#include <cairo/cairo.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "engine/draw/ink.hpp"
#include "engine/draw/text_metrics.hpp"
#include "paper/pdf.hpp"
#include "tests/draw_fixture.hpp"

/// Read by the leak checker of a sanitizer build: the font search keeps its patterns for the life of the process.
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() { return "leak:libfontconfig"; }

namespace pitchboard {
namespace {

std::vector<Sheet> some_sheets() {
  const auto plan = drawn(low_step());
  return plan ? draw_sheets(plan->input(), Paper::letter) : std::vector<Sheet>{};
}

int count(const std::string& text, std::string_view what) {
  int n = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++n;
  return n;
}

TEST(Pdf, HasAPageForEverySheet) {
  const std::vector<Sheet> sheets = some_sheets();
  const auto pdf = to_pdf(sheets, {"Low back step", "2026-05-02"});
  ASSERT_TRUE(pdf.has_value()) << pdf.error();
  EXPECT_TRUE(pdf->starts_with("%PDF-"));
  EXPECT_EQ(count(*pdf, "/Type /Page %"), static_cast<int>(sheets.size()));
}

TEST(Pdf, EmbedsTheDrawingFont) {
  const auto pdf = to_pdf(some_sheets(), {"Low back step", "2026-05-02"});
  ASSERT_TRUE(pdf.has_value());
  EXPECT_GE(count(*pdf, "B612"), 2) << "fonts-b612 is not installed, or the fallback was taken";
  EXPECT_GE(count(*pdf, "/FontFile3"), 2);
}

TEST(Pdf, EqualSheetsAreEqualBytes) {
  const std::vector<Sheet> sheets = some_sheets();
  const PdfInfo info{"Low back step", "2026-05-02"};
  EXPECT_EQ(to_pdf(sheets, info), to_pdf(sheets, info));
}

TEST(Pdf, IsDatedByTheJobAndNotByTheClock) {
  const std::vector<Sheet> sheets = some_sheets();
  const auto dated = to_pdf(sheets, {"x", "2026-05-02"}), undated = to_pdf(sheets, {"x", ""});
  ASSERT_TRUE(dated && undated);
  EXPECT_EQ(count(*dated, "/CreationDate (20260502"), 1);
  EXPECT_EQ(count(*undated, "/CreationDate (19700101"), 1);
}

TEST(Pdf, PagesHaveTheSizeOfTheirSheets) {
  std::vector<Sheet> sheets(2);
  sheets[0].width = 792, sheets[0].height = 612;
  sheets[1].width = 595.28, sheets[1].height = 841.89;
  const auto pdf = to_pdf(sheets, {});
  ASSERT_TRUE(pdf.has_value());
  EXPECT_EQ(count(*pdf, "/MediaBox [ 0 0 792 612 ]"), 1);
  EXPECT_EQ(count(*pdf, "/MediaBox [ 0 0 595.28"), 1);
}

TEST(Pdf, TextIsAsWideAsTheEngineTakesItToBe) {
  // Cairo measures with the font file; the engine with its table.
  cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_A8, 8, 8);
  cairo_t* context = cairo_create(surface);
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_set_font_options(context, options);
  const std::vector<std::string> texts{"47 3/8\" strong", "1203 mm", "Framing square: 7 3/16\" on the tongue",
                                       "bL1–bL19", "35.0° × ½ é"};
  for (const bool mono : {false, true}) {
    for (const bool bold : {false, true}) {
      cairo_select_font_face(context, mono ? kMonoFamily.data() : kFontFamily.data(), CAIRO_FONT_SLANT_NORMAL,
                             bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
      cairo_set_font_size(context, 100);
      for (const std::string& text : texts) {
        cairo_text_extents_t extents;
        cairo_text_extents(context, text.c_str(), &extents);
        EXPECT_NEAR(text_width(text, 100, bold, mono), extents.x_advance, 0.2) << text;
      }
    }
  }
  cairo_font_options_destroy(options);
  cairo_destroy(context);
  cairo_surface_destroy(surface);
}

}  // namespace
}  // namespace pitchboard
