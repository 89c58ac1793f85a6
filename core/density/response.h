// From light in a photo to reflectance, through patches of known density in the same photo.
//
//   one or none    R = b L           relative to the paper; flare stays in
//   two            R = a + b L       a < 0 takes off the veiling flare (docs: density 1.60 instead of 1.35 in a shadow)
//   three or more  R = a + b L^(g + h ln L), with as few of the terms as the residuals ask for, and rising throughout
//
// L is linear light by the file's curve, or the codes themselves when those fit clearly better: some cameras write
// linear codes without saying so. With two references this is decided by which of the two leaves a plausible flare
// (0 to 10 % of the lighter patch; common practice, no source), and only when the file's own curve does not.
#pragma once

#include "core/density/marks.h"
#include "core/density/sampling.h"
#include "core/quantity/result.h"

#include <QStringList>
#include <span>
#include <vector>

namespace washfast::density {

/// How well the density of a known patch is known when the marks do not say (common practice, no source).
inline constexpr double usualReferenceSd = 0.01;

struct Reference {
    QString name;
    ChannelDensities density {};
    double density_sd = usualReferenceSd;
    Triple light {}; // mean, after the lighting was levelled
    Triple light_error {}; // its standard error
};

/// R = a + exp(c + g x + h x^2) with x = ln(L / middle).
struct ChannelResponse {
    double a = 0, c = 0, g = 1, h = 0, middle = 1;

    [[nodiscard]] double reflectance(double light) const;
    [[nodiscard]] double slope(double light) const; // dR/dL
    /// Light that is there although nothing is reflected; 0 unless the response is a straight line.
    [[nodiscard]] double flare() const;
};

/// What is fitted: 1 gain, 2 gain and flare, 3 and a power, 4 and its bend.
struct Response {
    int terms = 1;
    std::array<ChannelResponse, 3> channels;
    double residual_sd = 0; // in density, over the references and channels; 0 when there is nothing left over
};

/// Fits as many terms as asked for; nothing when that is not possible. `light` and `density` of one size.
[[nodiscard]] std::optional<ChannelResponse> fitChannel(
    std::span<const double> light, std::span<const double> density, int terms);

/// All three channels with so many terms.
[[nodiscard]] std::optional<Response> fitResponse(const std::vector<Reference>& references, int terms);

/// Refuses references that contradict one another or are too alike (the sentence names them).
[[nodiscard]] Outcome checkReferences(const std::vector<Reference>& references);

struct ChosenResponse {
    Encoding encoding = Encoding::File;
    Response response;
};

/// Tries what the number of references allows. `file` and `linear`: the same references by both encodings.
[[nodiscard]] Result<ChosenResponse> chooseResponse(
    const std::vector<Reference>& file, const std::vector<Reference>& linear, Codes codes);

} // namespace washfast::density
