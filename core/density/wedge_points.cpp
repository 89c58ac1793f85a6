#include "core/density/wedge_points.h"

#include "core/density/words.h"
#include "core/quantity/fields.h"
#include "core/trial/preferred.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace washfast::density {

namespace {

/// Rows of readings of one print with a known density.
class Readings {
public:
    Readings(const Notebook& notebook, qint64 print)
        : notebook_(notebook)
        , table_(notebook.table(Entity::Reading))
    {
        for (const int row : notebook.children(Entity::Reading, print))
            if (get(row, u"reading_density").has())
                rows_.push_back(row);
    }
    [[nodiscard]] const std::vector<int>& rows() const { return rows_; }
    [[nodiscard]] Known get(int row, QStringView key) const
    {
        return notebook_.get({ Entity::Reading, table_.id(row) }, key);
    }
    [[nodiscard]] QString text(int row, QStringView key) const { return get(row, key).text().value_or(QString()); }
    [[nodiscard]] Rank rank(int row) const
    {
        return rankOf(fields::countedReading(), get(row, u"reading_density"),
            [&](const QString& column) { return get(row, column); });
    }
    [[nodiscard]] bool isStep(int row) const
    {
        return text(row, u"reading_where") == QLatin1String("step") && get(row, u"reading_step").has();
    }
    [[nodiscard]] const Field& field(QStringView key) const
    {
        return notebook_.catalogue().columnField(Entity::Reading, key);
    }
    /// The choices that occur at steps, in the catalogue's order; those not recorded last.
    [[nodiscard]] QStringList seen(QStringView key, const QString& when) const
    {
        QStringList found, ordered;
        for (const int row : rows_)
            if (isStep(row) && (when.isNull() || text(row, u"reading_when") == when))
                found << text(row, key);
        for (const auto& choice : field(key).choices)
            if (found.contains(choice.key))
                ordered << choice.key;
        if (found.contains(QString()))
            ordered << QString();
        return ordered;
    }
    [[nodiscard]] int steps(const QString& when, const QString& channel) const
    {
        return int(std::count_if(rows_.begin(), rows_.end(), [&](int row) {
            return isStep(row) && text(row, u"reading_when") == when && text(row, u"reading_channel") == channel;
        }));
    }

private:
    const Notebook& notebook_;
    const Table& table_;
    std::vector<int> rows_;
};

class Work {
public:
    Work(const PrintReader& reader, int row, const std::vector<GivenDose>& doses, const WedgeAsk& ask)
        : reader_(reader)
        , notebook_(reader.notebook())
        , row_(row)
        , print_(reader.notebook().prints().id(row))
        , doses_(doses)
        , ask_(ask)
        , readings_(reader.notebook(), print_)
    {
    }
    Result<WedgePoints> run();

private:
    [[nodiscard]] Error refuse(const QString& sentence) const
    {
        return { Trouble::BadInput, sentence, notebook_.nameOf({ Entity::Print, print_ }) };
    }
    [[nodiscard]] Outcome chooseReadings();
    [[nodiscard]] Outcome findDoses();
    [[nodiscard]] Outcome dosesOfWedge(qint64 negative);
    [[nodiscard]] Outcome dosesOfStrip();
    [[nodiscard]] Outcome takeOffPaper();
    [[nodiscard]] QString label(QStringView key, const QString& choice) const
    {
        return choice.isEmpty() ? Words::tr("not recorded") : readings_.field(key).choiceLabel(choice);
    }

    const PrintReader& reader_;
    const Notebook& notebook_;
    int row_;
    qint64 print_;
    const std::vector<GivenDose>& doses_;
    const WedgeAsk& ask_;
    Readings readings_;
    std::map<int, double> dose_at_; // J/cm2 by step
    double paper_ = 0;
    WedgePoints out_;
};

Outcome Work::chooseReadings()
{
    const auto states = readings_.seen(u"reading_when", {});
    if (states.isEmpty())
        return refuse(Words::tr("No density was read at the steps of a wedge or strip."));
    out_.when = ask_.when;
    if (out_.when.isEmpty())
        for (const char* state : { "day_after", "dry" })
            if (out_.when.isEmpty() && states.contains(QLatin1String(state)))
                out_.when = QString::fromLatin1(state);
    if (out_.when.isEmpty() || !states.contains(out_.when)) {
        QStringList there;
        for (const auto& state : states)
            there << label(u"reading_when", state);
        return refuse(
            Words::tr("Its steps were not read %1; there are readings: %2.")
                .arg(ask_.when.isEmpty() ? Words::tr("dry or a day after") : label(u"reading_when", ask_.when),
                    there.join(QStringLiteral(", "))));
    }
    if (ask_.when.isEmpty() && out_.when == QLatin1String("dry"))
        out_.notes << Words::tr("Read just dry, for there are no readings of a day after.");
    const auto channels = readings_.seen(u"reading_channel", out_.when);
    out_.channel = ask_.channel;
    if (out_.channel.isEmpty()) {
        out_.channel = channels.front();
        for (const auto& channel : channels)
            if (!channels.contains(QLatin1String("red"))
                && readings_.steps(out_.when, channel) > readings_.steps(out_.when, out_.channel))
                out_.channel = channel;
        if (channels.contains(QLatin1String("red")))
            out_.channel = QStringLiteral("red");
    }
    if (!channels.contains(out_.channel)) {
        QStringList there;
        for (const auto& channel : channels)
            there << label(u"reading_channel", channel);
        return refuse(Words::tr("Its steps were not read in %1; there are: %2.")
                          .arg(label(u"reading_channel", out_.channel), there.join(QStringLiteral(", "))));
    }
    if (out_.channel.isEmpty())
        out_.notes << Words::tr("In which channel it was read is not recorded.");
    return Done {};
}

Outcome Work::findDoses()
{
    const auto exposures = notebook_.children(Entity::Exposure, print_);
    if (exposures.empty())
        return refuse(Words::tr("No exposure is recorded."));
    std::optional<qint64> negative;
    bool differ = false;
    for (const int row : exposures) {
        const auto link
            = notebook_.get({ Entity::Exposure, notebook_.table(Entity::Exposure).id(row) }, u"expose_negative").link();
        differ = differ || (link && negative && *link != *negative);
        if (link)
            negative = link;
    }
    if (differ)
        return refuse(Words::tr("Its exposures were made under different negatives."));
    const bool has_steps = negative && !notebook_.children(Entity::NegativeStep, *negative).empty();
    for (size_t i = 0; i < exposures.size(); ++i)
        if (i >= doses_.size() || !doses_[i].j_cm2 || !(*doses_[i].j_cm2 > 0)) {
            const QString why = i < doses_.size() ? doses_[i].why_not : QString();
            return refuse(Words::tr("The dose of exposure %1 is not known. %2").arg(i + 1).arg(why).trimmed());
        }
    double sum = 0, low = 0, high = 0;
    out_.dose_evidence = Evidence::Measured;
    for (size_t i = 0; i < exposures.size(); ++i) {
        const auto& dose = doses_[i];
        sum += *dose.j_cm2;
        low += dose.low.value_or(*dose.j_cm2);
        high += dose.high.value_or(*dose.j_cm2);
        out_.dose_evidence = weaker(out_.dose_evidence, dose.evidence);
    }
    out_.dose_low_log10 = low > 0 ? std::log10(low / sum) : 0;
    out_.dose_high_log10 = std::log10(std::max(high, sum) / sum);
    if (has_steps) {
        dose_at_[0] = sum;
        return dosesOfWedge(*negative);
    }
    if (exposures.size() > 1)
        return dosesOfStrip();
    if (!negative)
        return refuse(Words::tr("No wedge is recorded on its exposure, and it is no stepped strip."));
    return refuse(Words::tr("The steps of “%1” have no ultraviolet densities yet; enter them on the Shelf.")
                      .arg(notebook_.nameOf({ Entity::Negative, *negative })));
}

Outcome Work::dosesOfWedge(qint64 negative)
{
    const double dose = dose_at_.extract(0).mapped();
    const auto& table = notebook_.table(Entity::NegativeStep);
    bool any = false;
    int lacking = 0;
    for (const int row : notebook_.children(Entity::NegativeStep, negative)) {
        const Ref step { Entity::NegativeStep, table.id(row) };
        const auto number = notebook_.get(step, u"step_number").number();
        const auto density = notebook_.get(step, u"step_uv_density").number();
        lacking += number && density ? 0 : 1;
        if (!number || !density)
            continue;
        dose_at_[int(std::lround(*number))] = dose * std::pow(10, -*density);
        any = true;
    }
    const auto name = notebook_.nameOf({ Entity::Negative, negative });
    if (!any)
        return refuse(
            Words::tr("The steps of “%1” have no ultraviolet densities yet; enter them on the Shelf.").arg(name));
    if (lacking > 0)
        out_.notes << Words::tr("“%1”: %2 of its steps lack a number or a density.").arg(name).arg(lacking);
    return Done {};
}

Outcome Work::dosesOfStrip()
{
    out_.strip = true;
    const auto exposures = notebook_.children(Entity::Exposure, print_);
    std::vector<std::pair<double, double>> in_order; // number, dose
    for (size_t i = 0; i < exposures.size(); ++i) {
        const Ref exposure { Entity::Exposure, notebook_.table(Entity::Exposure).id(exposures[i]) };
        in_order.emplace_back(
            notebook_.get(exposure, u"expose_number").number().value_or(double(i + 1)), *doses_[i].j_cm2);
    }
    std::stable_sort(in_order.begin(), in_order.end(), [](auto& a, auto& b) { return a.first < b.first; });
    double sum = 0;
    // The last step was covered after the first exposure, step 1 had them all.
    for (size_t i = 0; i < in_order.size(); ++i) {
        sum += in_order[i].second;
        dose_at_[int(in_order.size() - i)] = sum;
    }
    out_.notes << Words::tr("Taken as a strip that was covered step by step, so that step 1 had all exposures.");
    return Done {};
}

Outcome Work::takeOffPaper()
{
    if (!ask_.net)
        return Done {};
    for (const int row : readings_.rows())
        if (readings_.text(row, u"reading_where") == QLatin1String("paper")
            && readings_.text(row, u"reading_when") == out_.when
            && readings_.text(row, u"reading_channel") == out_.channel) {
            paper_ = *readings_.get(row, u"reading_density").number();
            return Done {};
        }
    if (const auto base = reader_.get(row_, u"paper_base_density").number()) {
        paper_ = *base;
        out_.notes << Words::tr("Its bare paper was not read; the paper's own record (%1) was taken off.")
                          .arg(*base, 0, 'f', 2);
        return Done {};
    }
    return refuse(
        Words::tr("Neither was its bare paper read nor is the paper's density on record, so there is nothing to "
                  "take off."));
}

Result<WedgePoints> Work::run()
{
    if (auto done = chooseReadings(); !done)
        return done.error();
    if (auto done = findDoses(); !done)
        return done.error();
    if (auto done = takeOffPaper(); !done)
        return done.error();
    std::map<int, StepPoint> at;
    std::map<int, Rank> ranks;
    QStringList strangers;
    for (const int row : readings_.rows()) {
        if (!readings_.isStep(row) || readings_.text(row, u"reading_when") != out_.when
            || readings_.text(row, u"reading_channel") != out_.channel)
            continue;
        StepPoint point;
        point.step = int(std::lround(*readings_.get(row, u"reading_step").number()));
        const auto dose = dose_at_.find(point.step);
        if (dose == dose_at_.end()) {
            strangers << QString::number(point.step);
            continue;
        }
        const auto rank = readings_.rank(row);
        if (const auto other = ranks.find(point.step); other != ranks.end() && other->second < rank)
            continue; // the step was read twice, by a scan and in a photo; the better one counts
        ranks[point.step] = rank;
        const auto density = readings_.get(row, u"reading_density");
        point.log_h = std::log10(dose->second);
        point.density = *density.number() - paper_;
        point.evidence = density.evidence;
        point.spread = readings_.get(row, u"reading_spread").number();
        at[point.step] = point;
    }
    if (!strangers.isEmpty()) {
        strangers.removeDuplicates();
        out_.notes
            << Words::tr("No dose is known for step %1, which was read.").arg(strangers.join(QStringLiteral(", ")));
    }
    for (const auto& [step, point] : at)
        out_.points.push_back(point);
    if (out_.points.empty())
        return refuse(Words::tr("None of the steps that were read is a step of its wedge or strip."));
    std::sort(out_.points.begin(), out_.points.end(),
        [](const StepPoint& a, const StepPoint& b) { return a.log_h < b.log_h; });
    return out_;
}

} // namespace

std::vector<qint64> printsWithSteps(const Notebook& notebook)
{
    const auto& table = notebook.table(Entity::Reading);
    const auto& catalogue = notebook.catalogue();
    const auto& where = std::get<ChoiceColumn>(table.column(catalogue.column(Entity::Reading, u"reading_where")));
    const auto& step = std::get<NumberColumn>(table.column(catalogue.column(Entity::Reading, u"reading_step")));
    const auto& density = std::get<NumberColumn>(table.column(catalogue.column(Entity::Reading, u"reading_density")));
    const int wanted = catalogue.columnField(Entity::Reading, u"reading_where").choiceIndex(u"step");
    std::vector<qint64> prints;
    for (size_t row = 0; row < where.size(); ++row)
        if (where[row] == wanted && !std::isnan(step[row]) && !std::isnan(density[row]))
            prints.push_back(table.owners()[row]);
    std::sort(prints.begin(), prints.end());
    prints.erase(std::unique(prints.begin(), prints.end()), prints.end());
    return prints;
}

QStringList statesRead(const Notebook& notebook, qint64 print)
{
    return Readings(notebook, print).seen(u"reading_when", {});
}

QStringList channelsRead(const Notebook& notebook, qint64 print, const QString& when)
{
    return Readings(notebook, print).seen(u"reading_channel", when);
}

Result<WedgePoints> wedgePoints(
    const PrintReader& reader, int print_row, const std::vector<GivenDose>& doses, const WedgeAsk& ask)
{
    if (print_row < 0 || print_row >= reader.notebook().prints().rows())
        return Error { Trouble::NotFound, Words::tr("There is no such print."), {} };
    return Work(reader, print_row, doses, ask).run();
}

} // namespace washfast::density
