#include "core/density/measure.h"

#include "core/density/region_density.h"
#include "core/density/words.h"

#include <QThread>
#include <QThreadPool>
#include <QtConcurrent/QtConcurrentMap>
#include <algorithm>
#include <cmath>
#include <numeric>

namespace washfast::density {

namespace {

constexpr double clippedTooMuch = 0.02; // share of a reference's pixels
constexpr double clippedWorthSaying = 0.01;
constexpr qint64 fewPixels = 50;

class Measuring {
public:
    Measuring(const Photo& photo, const Marks& marks, const Watch& watch)
        : photo_(photo)
        , marks_(marks)
        , watch_(watch)
    {
    }
    Result<Measurement> run();

private:
    [[nodiscard]] Outcome placeRegions();
    [[nodiscard]] bool sampleAll();
    [[nodiscard]] Outcome pickReferences();
    [[nodiscard]] Outcome fit();
    void levelAll(const Triple& flare);
    [[nodiscard]] std::vector<Reference> referencesBy(Encoding encoding) const;
    [[nodiscard]] const std::vector<Sample>& samples(Encoding encoding) const
    {
        return encoding == Encoding::Linear ? linear_ : file_;
    }
    void read();
    void warn(const QString& sentence)
    {
        if (!out_.warnings.contains(sentence))
            out_.warnings << sentence;
    }

    const Photo& photo_;
    const Marks& marks_;
    const Watch& watch_;
    Measurement out_;
    std::vector<Corners> places_;
    std::vector<Sample> file_, linear_;
    std::vector<size_t> references_; // indices of the regions that are used
    std::vector<Reference> paper_; // stands in for the references when there are fewer than two
    std::vector<Levelled> light_[2]; // by encoding
    std::optional<LightingPlane> lighting_[2];
};

Outcome Measuring::placeRegions()
{
    std::optional<Perspective> perspective;
    if (marks_.corners) {
        perspective = Perspective::ontoCorners(*marks_.corners);
        if (!perspective)
            return Error { Trouble::BadInput, Words::tr("The four corners span no area."), QStringLiteral("corners") };
    }
    for (size_t i = 0; i < marks_.regions.size(); ++i) {
        const auto& region = marks_.regions[i];
        const auto place = perspective ? perspective->toPhoto(region.corners) : std::optional(region.corners);
        if (!place)
            return Error { Trouble::BadInput,
                Words::tr("The region %1 lies beyond the horizon of the marked corners.").arg(region.name),
                QStringLiteral("regions[%1]").arg(i) };
        places_.push_back(*place);
    }
    return Done {};
}

bool Measuring::sampleAll()
{
    std::vector<size_t> indices(places_.size());
    std::iota(indices.begin(), indices.end(), size_t(0));
    file_.resize(places_.size());
    linear_.resize(places_.size());
    std::atomic<size_t> finished = 0;
    QtConcurrent::blockingMap(indices, [&](size_t i) {
        if (watch_.cancelled())
            return;
        auto both = sampleBoth(photo_, places_[i]);
        file_[i] = std::move(both.file);
        linear_[i] = std::move(both.linear);
        watch_.tell(double(++finished) / double(places_.size()));
    });
    return !watch_.cancelled();
}

Outcome Measuring::pickReferences()
{
    QStringList clipped;
    for (size_t i = 0; i < marks_.regions.size(); ++i) {
        const auto& region = marks_.regions[i];
        const auto& sample = file_[i];
        if (sample.pixels == 0 && (region.density || region.paper))
            return Error { Trouble::BadInput, Words::tr("The region %1 holds no pixel of the photo.").arg(region.name),
                QStringLiteral("regions[%1]").arg(i) };
        if (!region.density)
            continue;
        const auto most = std::max({ sample.at_top[0], sample.at_top[1], sample.at_top[2], sample.at_bottom[0],
            sample.at_bottom[1], sample.at_bottom[2] });
        const bool bad = double(most) > clippedTooMuch * double(sample.pixels);
        out_.references.push_back({ region.name, !bad, {}, {}, {} });
        if (bad)
            clipped << region.name;
        else
            references_.push_back(i);
    }
    if (!clipped.isEmpty() && references_.size() < 2)
        return Error { Trouble::BadInput,
            Words::tr(
                "The reference %1 is clipped: its pixels stand at the end of the scale, so they say nothing. Take "
                "the photo darker (or lighter), or mark another patch.")
                .arg(clipped.join(QStringLiteral(", "))),
            photo_.name };
    for (const auto& name : clipped)
        warn(Words::tr("The reference %1 is clipped and was left out.").arg(name));
    if (references_.size() < 2) {
        out_.relative_to_paper = true;
        std::vector<Sample> paper;
        for (size_t i = 0; i < marks_.regions.size(); ++i)
            if (marks_.regions[i].paper)
                paper.push_back(file_[i]);
        warn(paper.empty()
                ? (references_.empty()
                        ? Words::tr(
                            "No reference and no paper is marked: the densities are relative to the largest code of "
                            "the photo, and flare is not taken off.")
                        : Words::tr(
                            "Only one reference is marked: the densities are relative to it, and flare is not taken "
                            "off."))
                : Words::tr(
                    "Fewer than two references are marked: the densities are relative to the paper, and flare is not "
                    "taken off."));
        if (!paper.empty())
            references_.clear();
    }
    return Done {};
}

void Measuring::levelAll(const Triple& flare)
{
    for (const Encoding encoding : { Encoding::File, Encoding::Linear }) {
        const auto e = size_t(encoding == Encoding::Linear);
        lighting_[e].reset();
        if (marks_.flat == Flat::Plane) {
            std::vector<Sample> paper;
            for (size_t i = 0; i < marks_.regions.size(); ++i)
                if (marks_.regions[i].paper)
                    paper.push_back(samples(encoding)[i]);
            // Flare is known only in the encoding of the response; the other one is fitted without it.
            const bool same = encoding == out_.response.encoding;
            lighting_[e] = LightingPlane::fit(paper, photo_.image.size(), same ? flare : Triple {});
        }
        light_[e].clear();
        for (const auto& sample : samples(encoding))
            light_[e].push_back(levelled(sample, lighting_[e] ? &*lighting_[e] : nullptr));
    }
}

std::vector<Reference> Measuring::referencesBy(Encoding encoding) const
{
    const auto e = size_t(encoding == Encoding::Linear);
    std::vector<Reference> all;
    for (const size_t i : references_) {
        const auto& region = marks_.regions[i];
        all.push_back({ region.name, *region.density, region.density_sd.value_or(usualReferenceSd), light_[e][i].light,
            light_[e][i].error });
    }
    if (!all.empty())
        return all;
    // The paper as a reference of density 0; without one, the largest code.
    Reference zero { Words::tr("paper"), {}, 0, {}, {} };
    double papers = 0;
    for (size_t i = 0; i < marks_.regions.size(); ++i)
        if (marks_.regions[i].paper) {
            papers += 1;
            for (size_t k = 0; k < 3; ++k) {
                zero.light[k] += light_[e][i].light[k];
                zero.light_error[k] = std::hypot(zero.light_error[k], light_[e][i].error[k]);
            }
        }
    for (size_t k = 0; k < 3; ++k) {
        zero.light[k] = papers > 0 ? zero.light[k] / papers : 1;
        zero.light_error[k] = papers > 0 ? zero.light_error[k] / papers : 0;
    }
    return { zero };
}

Outcome Measuring::fit()
{
    levelAll({});
    if (marks_.flat == Flat::Plane && !lighting_[0])
        return Error { Trouble::BadInput,
            Words::tr("The lighting cannot be fitted: mark paper in at least three places that do not lie on a line."),
            photo_.name };
    // The plane needs the flare, and the flare needs the plane: a few rounds settle both.
    Codes codes = marks_.codes;
    for (int round = 0; round < 6; ++round) {
        const auto file = referencesBy(Encoding::File), linear = referencesBy(Encoding::Linear);
        if (auto checked = checkReferences(codes == Codes::Linear ? linear : file); !checked)
            return Error { checked.error().code, checked.error().says, photo_.name };
        auto chosen = chooseResponse(file, linear, codes);
        if (!chosen)
            return Error { chosen.error().code, chosen.error().says, photo_.name };
        out_.response = *chosen;
        if (marks_.flat != Flat::Plane)
            break;
        codes = chosen->encoding == Encoding::Linear ? Codes::Linear : (round > 0 ? Codes::File : codes);
        Triple flare {};
        for (size_t k = 0; k < 3; ++k)
            flare[k] = chosen->response.channels[k].flare();
        levelAll(flare);
    }
    if (out_.response.encoding == Encoding::Linear && marks_.codes == Codes::Auto)
        warn(Words::tr(
            "The references fit codes that are light itself, not the curve the file claims; the codes are taken so."));
    out_.lighting = lighting_[size_t(out_.response.encoding == Encoding::Linear)];
    return Done {};
}

void Measuring::read()
{
    const auto e = size_t(out_.response.encoding == Encoding::Linear);
    const auto references = referencesBy(out_.response.encoding);
    const auto& response = out_.response.response;
    const auto nudged = nudgedResponses(references, response);
    for (size_t i = 0; i < marks_.regions.size(); ++i)
        out_.regions.push_back(readRegion(marks_.regions[i].name, samples(out_.response.encoding)[i], light_[e][i],
            response, nudged, photo_.to_xyz_d50));
    double darkest = -1, worst = 0;
    for (auto& reading : out_.references) {
        const auto found = std::find_if(references.begin(), references.end(),
            [&](const Reference& reference) { return reference.name == reading.name; });
        if (found == references.end())
            continue;
        double fitted = 0, given = 0;
        for (size_t k = 0; k < 3; ++k) {
            const double density = -std::log10(std::max(1e-9, response.channels[k].reflectance(found->light[k])));
            fitted += density / 3;
            given += found->density[k] / 3;
            reading.channel_residuals[k] = found->density[k] - density;
        }
        reading.fitted_density = fitted;
        reading.residual = given - fitted;
        worst = std::max(worst, std::abs(given - fitted));
        darkest = std::max(darkest, given);
    }
    if (worst > 0.05)
        warn(Words::tr("A reference misses the fitted response by %1; is its density right?").arg(worst, 0, 'f', 2));
    for (size_t i = 0; i < out_.regions.size(); ++i) {
        const auto& region = out_.regions[i];
        const bool reference = marks_.regions[i].density.has_value();
        if (region.pixels == 0)
            warn(Words::tr("The region %1 holds no pixel of the photo.").arg(region.name));
        else if (region.pixels < fewPixels)
            warn(Words::tr("The region %1 has %n pixels only.", nullptr, int(region.pixels)).arg(region.name));
        if (region.clipped_share > clippedWorthSaying && !reference)
            warn(Words::tr("%1 % of the region %2 is clipped.")
                     .arg(100 * region.clipped_share, 0, 'f', 0)
                     .arg(region.name));
        if (references_.size() >= 2 && region.visual.density && *region.visual.density > darkest + 0.3)
            warn(Words::tr("The region %1 is much darker than the darkest reference; its density leans on the fit.")
                     .arg(region.name));
    }
}

Result<Measurement> Measuring::run()
{
    out_.photo = photo_.name;
    out_.width = photo_.width();
    out_.height = photo_.height();
    out_.taken_at = photo_.taken_at;
    out_.warnings = photo_.notes;
    if (auto placed = placeRegions(); !placed)
        return placed.error();
    if (!sampleAll())
        return stopped(photo_.name);
    if (auto picked = pickReferences(); !picked)
        return picked.error();
    if (auto fitted = fit(); !fitted)
        return fitted.error();
    read();
    return std::move(out_);
}

} // namespace

Result<Measurement> measure(const Photo& photo, const Marks& marks, const Watch& watch)
{
    return Measuring(photo, marks, watch).run();
}

std::vector<Result<Measurement>> measureAll(const std::vector<Job>& jobs, const Watch& watch)
{
    std::vector<std::optional<Result<Measurement>>> results(jobs.size());
    std::vector<size_t> indices(jobs.size());
    std::iota(indices.begin(), indices.end(), size_t(0));
    std::atomic<size_t> finished = 0;
    const Watch quiet { {}, watch.cancel };
    const auto one = [&](size_t i) {
        if (watch.cancelled()) {
            results[i] = stopped(jobs[i].path);
        } else {
            auto photo = openPhoto(jobs[i].path, quiet);
            results[i] = photo ? measure(*photo, jobs[i].marks, quiet) : Result<Measurement>(photo.error());
        }
        watch.tell(double(++finished) / double(jobs.size()));
    };
    // A pool of its own: the sampling inside uses the common one.
    QThreadPool pool;
    pool.setMaxThreadCount(std::max(1, QThread::idealThreadCount()));
    QtConcurrent::blockingMap(&pool, indices, one);
    std::vector<Result<Measurement>> out;
    for (auto& result : results)
        out.push_back(std::move(*result));
    return out;
}

} // namespace washfast::density
