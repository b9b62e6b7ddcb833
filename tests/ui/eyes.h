#pragma once

#include <QColor>
#include <QImage>

#include <algorithm>
#include <array>
#include <cmath>

namespace gk::test {

/// Ways in which a screen is seen at the chair.
enum class Eyes { plain, grey, amber, protanopia, deuteranopia, tritanopia };
inline constexpr std::array allEyes{Eyes::plain,      Eyes::grey,         Eyes::amber,
                                    Eyes::protanopia, Eyes::deuteranopia, Eyes::tritanopia};
inline constexpr std::array eyesNames{"plain",      "grey",         "amber",
                                      "protanopia", "deuteranopia", "tritanopia"};

/// sRGB to light, IEC 61966-2-1 as WCAG 2.1 has it in "relative luminance" (0.03928 there).
inline double lightOf(int byte) {
  const double part = byte / 255.0;
  return part <= 0.03928 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
}

inline int byteOf(double light) {
  const double held = std::clamp(light, 0.0, 1.0);
  const double part = held <= 0.0031308 ? held * 12.92 : 1.055 * std::pow(held, 1 / 2.4) - 0.055;
  return static_cast<int>(std::lround(part * 255));
}

/// WCAG 2.1, "relative luminance".
inline double luminance(const QColor& colour) {
  return 0.2126 * lightOf(colour.red()) + 0.7152 * lightOf(colour.green()) +
         0.0722 * lightOf(colour.blue());
}

/// WCAG 2.1, "contrast ratio".
inline double contrast(const QColor& one, const QColor& other) {
  const auto [low, high] = std::minmax({luminance(one), luminance(other)});
  return (high + 0.05) / (low + 0.05);
}

using Matrix = std::array<std::array<double, 3>, 3>;

/// On linear RGB. The three dichromacies: Machado, Oliveira & Fernandes 2009, "A Physiologically-
/// based Model for Simulation of Color Vision Deficiency", severity 1.0; values from memory, each
/// row sums to 1 as it must so that white stays white. Grey is WCAG's luminance. Amber is our own
/// guess, no source: an orange filter that stops light under about 520 nm takes all of a screen's
/// blue, a good part of its green and little of its red.
inline const Matrix& matrixOf(Eyes eyes) {
  static const std::array<Matrix, 6> all{
      {{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}},
       {{{0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}}},
       {{{0.95, 0, 0}, {0, 0.60, 0}, {0, 0, 0.01}}},
       {{{0.152286, 1.052583, -0.204868},
         {0.114503, 0.786281, 0.099216},
         {-0.003882, -0.048116, 1.051998}}},
       {{{0.367322, 0.860646, -0.227968},
         {0.280085, 0.672501, 0.047413},
         {-0.011820, 0.042940, 0.968881}}},
       {{{1.255528, -0.076749, -0.178779},
         {-0.078411, 0.930809, 0.147602},
         {0.004733, 0.691367, 0.303900}}}}};
  return all[static_cast<std::size_t>(eyes)];
}

inline QColor seen(const QColor& colour, Eyes eyes) {
  const std::array light{lightOf(colour.red()), lightOf(colour.green()), lightOf(colour.blue())};
  std::array<int, 3> out{};
  const auto& matrix = matrixOf(eyes);
  for (std::size_t row = 0; row < 3; ++row)
    out[row] =
        byteOf(matrix[row][0] * light[0] + matrix[row][1] * light[1] + matrix[row][2] * light[2]);
  return {out[0], out[1], out[2]};
}

inline QImage seen(const QImage& picture, Eyes eyes) {
  QImage out = picture.convertToFormat(QImage::Format_RGB32);
  QRgb last = 0;
  QRgb lastSeen = seen(QColor(last), eyes).rgb();
  for (int y = 0; y < out.height(); ++y)
    for (int x = 0; x < out.width(); ++x) {
      const auto pixel = out.pixel(x, y);
      if (pixel != last) {
        last = pixel;
        lastSeen = seen(QColor(pixel), eyes).rgb();
      }
      out.setPixel(x, y, lastSeen);
    }
  return out;
}

} // namespace gk::test
