#include "ui/curves/curve_page_state.h"

#include "ui/curves/words.h"

#include <algorithm>
#include <map>

namespace washfast::ui::curves {

namespace {

constexpr int fewPrints = 4; // with fewer, how much prints differ is hardly known
constexpr double wideDose = 0.05; // log10; narrower doses are not worth a sentence

std::vector<density::CurvePoint> pointsOf(const density::WedgePoints& steps)
{
    std::vector<density::CurvePoint> points;
    for (const auto& step : steps.points)
        points.push_back({ step.log_h, step.density, 1 });
    return points;
}

/// Without the steps that turned back.
std::vector<density::CurvePoint> usedOf(const CurvePrint& print)
{
    return print.alone ? print.alone->used : pointsOf(print.steps);
}

QString choiceLabel(const Notebook& notebook, QStringView key, const QString& choice)
{
    return choice.isEmpty() ? QString() : notebook.catalogue().columnField(Entity::Reading, key).choiceLabel(choice);
}

/// A density to want when the person has not said one: a round one just below the shoulder.
std::optional<double> suggestedDensity(const density::CurveFit& fit)
{
    const auto density = fit.densityAt(fit.shoulder_log_h.value_or(fit.highest()));
    if (!density)
        return {};
    for (const double grain : { 0.05, 0.01 }) {
        const double round = std::floor(*density / grain + 1e-9) * grain;
        if (fit.exposureFor(round))
            return round;
    }
    return density;
}

} // namespace

CurvePageState::CurvePageState(const PrintReader& reader, const CurveAsk& ask)
    : ask_(ask)
{
    const auto& notebook = reader.notebook();
    const auto all = steppedPrints(reader);
    for (const auto& group : curveGroups(notebook, all))
        if (group.of == ask.of)
            title_ = group.name;
    Prints chosen;
    for (const auto& print : all)
        if (belongs(print, ask.of))
            chosen.push_back(print);
    if (const auto found = int(chosen.size()); found > mostPrints) {
        chosen.erase(chosen.begin(), chosen.end() - mostPrints);
        first_ << Words::tr("Of %n prints the latest %1 were taken.", nullptr, found).arg(mostPrints);
    }
    if (!chooseReadings(notebook, chosen)) {
        compose();
        return;
    }
    density_label_ = labelOfDensity(notebook);
    takePoints(reader, chosen);
    if (prints_.size() == 1)
        fitOne(reader, all);
    else if (!prints_.empty())
        fitTogether();
    if (fit_ && !ask_.wanted) {
        ask_.wanted = suggestedDensity(*fit_);
        findTargets();
    }
    sayNotes();
    sayDoses();
    if (fit_)
        last_ << Words::tr("Toe and shoulder are points of ISO 6846, a standard for silver-halide papers, taken "
                           "over by analogy: 0.04 above the base, and 90 % of the way to the deepest tone. They "
                           "are no rating by that standard.");
    compose();
}

CurvePageState CurvePageState::withWanted(double density) const
{
    auto other = *this;
    other.ask_.wanted = density;
    if (other.fit_)
        other.findTargets();
    other.compose();
    return other;
}

void CurvePageState::compose()
{
    sentences_ = first_;
    if (fit_)
        sentences_ << fit_->warnings;
    sentences_ << last_;
}

bool CurvePageState::chooseReadings(const Notebook& notebook, const Prints& chosen)
{
    if (chosen.empty()) {
        first_ << Words::tr("No print with steps that were read is chosen.");
        return false;
    }
    // One state and one channel for all of them.
    QStringList states;
    for (const auto& print : chosen)
        states << density::statesRead(notebook, print.id);
    when_ = ask_.when;
    for (const char* state : { "day_after", "dry" })
        if (when_.isEmpty() && states.contains(QLatin1String(state)))
            when_ = QString::fromLatin1(state);
    if (when_.isEmpty()) {
        first_ << Words::tr("The steps were read neither a day after nor dry; choose the state to take instead.");
        return false;
    }
    if (ask_.when.isEmpty() && when_ == QLatin1String("dry"))
        first_ << Words::tr("Read just dry: there are no readings of a day after.");
    std::map<QString, int> channels;
    for (const auto& print : chosen)
        for (const auto& channel : density::channelsRead(notebook, print.id, when_))
            ++channels[channel];
    channel_ = ask_.channel;
    if (channel_.isEmpty() && !channels.empty()) {
        const auto most = std::max_element(
            channels.begin(), channels.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
        channel_ = channels.contains(QStringLiteral("red")) ? QStringLiteral("red") : most->first;
    }
    return true;
}

void CurvePageState::takePoints(const PrintReader& reader, const Prints& chosen)
{
    for (const auto& print : chosen) {
        auto steps = density::wedgePoints(reader, print.row, dosesOf(reader, print.row), { when_, channel_, ask_.net });
        if (!steps) {
            first_ << steps.error().sentence();
            continue;
        }
        CurvePrint one { print, std::move(steps).value(), {}, 0, {} };
        if (auto fit = density::fitCurve({ pointsOf(one.steps), {}, {}, false }))
            one.alone = std::move(fit).value();
        prints_.push_back(std::move(one));
    }
}

std::vector<double> CurvePageState::targets() const
{
    return ask_.wanted ? std::vector { *ask_.wanted } : std::vector<double> {};
}

std::optional<double> CurvePageState::slopeOfOthers(const PrintReader& reader, const Prints& all, int& prints) const
{
    const auto& self = prints_.front().print;
    std::vector<density::PooledPoint> points;
    density::CurveRequest alone { {}, {}, {}, false };
    prints = 0;
    for (const auto& other : all) {
        if (other.id == self.id || !other.formula || other.formula != self.formula || other.paper != self.paper)
            continue;
        const auto steps
            = density::wedgePoints(reader, other.row, dosesOf(reader, other.row), { when_, channel_, ask_.net });
        if (!steps)
            continue;
        for (const auto& step : steps->points)
            points.push_back({ step.log_h, step.density, prints });
        ++prints;
        alone.points = pointsOf(*steps);
    }
    if (prints == 1) {
        const auto fit = density::fitCurve(alone);
        return fit && fit->model == density::CurveModel::Logistic ? std::optional(fit->curve.slope) : std::nullopt;
    }
    const auto pooled = density::poolCurves(points);
    return pooled ? std::optional(pooled->curve.slope) : std::nullopt;
}

void CurvePageState::fitOne(const PrintReader& reader, const Prints& all)
{
    auto& only = prints_.front();
    request_ = density::CurveRequest { pointsOf(only.steps), {}, targets(), true };
    auto own = density::fitCurve(*request_);
    if (!own) {
        first_ << own.error().sentence();
        return;
    }
    int others = 0;
    if (own->model == density::CurveModel::Monotone)
        if (const auto slope = slopeOfOthers(reader, all, others)) {
            auto with_slope = *request_;
            with_slope.fixed[density::Slope] = *slope;
            auto held = density::fitCurve(with_slope);
            if (held && held->model == density::CurveModel::Logistic) {
                own = std::move(held);
                request_ = with_slope;
                first_ << Words::tr(
                    "Its own steps do not show how steep the curve is: the slope is that of %n other print(s) of this "
                    "formula on this paper.",
                    nullptr, others);
            }
        }
    only.alone = *own;
    fit_ = std::move(own).value();
}

std::vector<density::PooledPoint> CurvePageState::pooledPoints() const
{
    std::vector<density::PooledPoint> points;
    for (size_t k = 0; k < prints_.size(); ++k)
        for (const auto& point : usedOf(prints_[k]))
            points.push_back({ point.log_h, point.density, int(k) });
    return points;
}

void CurvePageState::fitTogether()
{
    QStringList turned;
    for (const auto& print : prints_)
        if (print.alone && !print.alone->left_out.empty())
            turned << print.print.code;
    if (!turned.isEmpty())
        first_ << Words::tr("The deepest steps turn back (reversal) and were left out: %1.")
                      .arg(turned.join(QStringLiteral(", ")));
    const auto points = pooledPoints();
    auto pooled = density::poolCurves(points);
    if (!pooled) {
        fitRegardless(pooled.error().sentence());
        return;
    }
    pooled_ = std::move(pooled).value();
    fit_ = density::commonCurve(*pooled_, points, targets());
    std::vector<std::optional<double>> ages;
    for (size_t k = 0; k < prints_.size(); ++k) {
        prints_[k].shift = pooled_->shifts[k];
        prints_[k].shift_error = pooled_->shift_errors[k];
        ages.push_back(prints_[k].print.mix_age_d);
    }
    drift_ = density::driftWith(*pooled_, points, ages);
    first_ << Words::tr("%n print(s), each with a speed of its own; the curve is that of a print of ordinary speed.",
        nullptr, int(prints_.size()));
    if (int(prints_.size()) < fewPrints)
        first_ << Words::tr("With so few prints it is hardly known how much prints differ.");
}

void CurvePageState::fitRegardless(const QString& why)
{
    first_ << why;
    request_ = density::CurveRequest { {}, {}, targets(), true };
    for (const auto& print : prints_)
        for (const auto& point : usedOf(print))
            request_->points.push_back(point);
    auto fit = density::fitCurve(*request_);
    if (!fit) {
        first_ << fit.error().sentence();
        return;
    }
    first_ << Words::tr("The curve goes through all steps as if they were of one print.");
    fit_ = std::move(fit).value();
}

void CurvePageState::findTargets()
{
    if (pooled_) {
        fit_ = density::commonCurve(*pooled_, pooledPoints(), targets());
        return;
    }
    request_->targets = targets();
    if (auto fit = density::fitCurve(*request_))
        fit_ = std::move(fit).value();
}

void CurvePageState::sayNotes()
{
    std::vector<std::pair<QString, QStringList>> by_note; // what was said, of whom
    for (const auto& print : prints_)
        for (const auto& note : print.steps.notes) {
            auto at = std::find_if(by_note.begin(), by_note.end(), [&](const auto& one) { return one.first == note; });
            if (at == by_note.end())
                at = by_note.insert(by_note.end(), { note, {} });
            at->second << print.print.code;
        }
    for (const auto& [note, codes] : by_note)
        last_ << QStringLiteral("%1: %2").arg(codes.join(QStringLiteral(", ")), note);
}

void CurvePageState::sayDoses()
{
    QStringList assumed;
    double most = 0;
    for (const auto& print : prints_) {
        if (print.steps.dose_evidence == Evidence::Assumed)
            assumed << print.print.code;
        most = std::max({ most, -print.steps.dose_low_log10, print.steps.dose_high_log10 });
    }
    if (!assumed.isEmpty())
        last_ << Words::tr("Doses that rest on assumptions: %1.").arg(assumed.join(QStringLiteral(", ")));
    if (most > wideDose)
        last_ << Words::tr("A print's dose is known to within a factor of %1 at the worst; that moves all of its "
                           "steps along the axis together.")
                     .arg(figure(std::pow(10, most), 2));
}

std::optional<density::CurveTarget> CurvePageState::target() const
{
    return fit_ && !fit_->targets.empty() ? std::optional(fit_->targets.front()) : std::nullopt;
}

density::Interval CurvePageState::nextPrint() const
{
    const auto wanted = target();
    return pooled_ && wanted ? pooled_->nextPrint(*wanted) : density::Interval {};
}

QString CurvePageState::labelOfDensity(const Notebook& notebook) const
{
    const auto channel = choiceLabel(notebook, u"reading_channel", channel_);
    const auto when = choiceLabel(notebook, u"reading_when", when_);
    const auto density = ask_.net ? Words::tr("Density above the paper") : Words::tr("Density");
    return channel.isEmpty() ? Words::tr("%1, channel not recorded, %2").arg(density, when)
                             : Words::tr("%1, %2, %3").arg(density, channel, when);
}

QString CurvePageState::inWords() const
{
    QStringList words { title_ + QLatin1Char('.') };
    for (const auto& figure : figures())
        words << (figure.interval.isEmpty()
                ? QStringLiteral("%1: %2.").arg(figure.name, figure.value)
                : Words::tr("%1: %2, 95 percent interval %3.").arg(figure.name, figure.value, figure.interval));
    words << sentences_;
    return words.join(QLatin1Char(' '));
}

} // namespace washfast::ui::curves
