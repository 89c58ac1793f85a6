#include "ui/sunlight/light_ask.h"

#include "core/light/print_light.h"
#include "ui/common/offered.h"
#include "ui/sunlight/words.h"

#include <algorithm>

namespace washfast::ui::sunlight {

namespace {

std::optional<Pane> paneOf(const Notebook& notebook, qint64 id)
{
    const Ref ref { Entity::Cover, id };
    const auto text = [&](QStringView column) { return notebook.get(ref, column).text().value_or(QString()); };
    const auto layer = light::layerOfCover({ text(u"cover_kind"), notebook.nameOf(ref), text(u"cover_spectrum"),
        notebook.get(ref, u"cover_thickness_mm").number(), notebook.get(ref, u"cover_uva_transmittance").number() });
    return layer ? std::optional(Pane { layer->name, false, light::CoverStack({ *layer }) }) : std::nullopt;
}

std::optional<double> middle(std::vector<double> values)
{
    if (values.empty())
        return std::nullopt;
    const auto half = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), half, values.end());
    return *half;
}

} // namespace

std::vector<Pane> paneChoices(const Notebook& notebook)
{
    std::vector<Pane> panes;
    const auto& table = notebook.table(Entity::Cover);
    for (int row = 0; row < table.rows(); ++row)
        if (auto pane = paneOf(notebook, table.id(row)); pane && !isRetired(notebook, { Entity::Cover, table.id(row) }))
            panes.push_back(std::move(*pane));
    panes.push_back({ Words::tr("a window, two panes"), true, {} });
    return panes;
}

DoseWanted doseWanted(const Notebook& notebook, qint64 session)
{
    const auto& prints = notebook.prints();
    const int goal = notebook.catalogue().column(Entity::Print, u"dose_goal_j_cm2");
    const int of = notebook.catalogue().column(Entity::Print, u"print_session");
    std::vector<double> here, anywhere;
    for (int row = 0; row < prints.rows(); ++row)
        if (const auto dose = prints.at(row, goal).number(); dose && *dose > 0) {
            anywhere.push_back(*dose);
            if (prints.link(row, of) == session)
                here.push_back(*dose);
        }
    if (const auto dose = middle(std::move(here)))
        return { *dose, Words::tr("as wanted for this session's prints"), false };
    if (const auto dose = middle(std::move(anywhere)))
        return { *dose, Words::tr("as wanted for this notebook's prints"), false };
    return { DoseWanted {}.j_cm2, Words::tr("assumed: no print says"), true };
}

light::ExposureCase openSheet(const LightAsk& ask)
{
    light::ExposureCase sheet;
    sheet.place = ask.site.place;
    if (const auto albedo = light::groundAlbedo(ask.site.ground))
        sheet.atmosphere.ground_albedo = *albedo;
    sheet.kind_noted = light::PlaceKind::OpenSky;
    if (ask.sky.noted())
        sheet.skies = { { Instant::from(ask.date.startOfDay(ask.site.zone)), ask.sky } };
    return sheet;
}

light::ExposureCase sheetBehindPane(const LightAsk& ask)
{
    auto sheet = openSheet(ask);
    if (!ask.pane)
        return sheet;
    if (!ask.pane->window) {
        sheet.covers = ask.pane->stack;
        return sheet;
    }
    sheet.kind_noted = sheet.setting.kind = light::PlaceKind::Window;
    sheet.setting.facing_deg = ask.site.place.latitude_deg >= 0 ? 180 : 0; // the side of the noon sun
    sheet.pane = ask.pane->stack;
    return sheet;
}

QString skyWords(const light::Sky& sky)
{
    if (!sky.noted())
        return Words::tr("any sky");
    QStringList words;
    if (sky.eighths)
        words << (*sky.eighths <= 0 ? Words::tr("no cloud") : Words::tr("%1/8 cloud").arg(figure(*sky.eighths, 0)));
    if (sky.disc)
        words << (*sky.disc == light::Disc::Yes ? Words::tr("disc shows")
                : *sky.disc == light::Disc::No  ? Words::tr("disc hidden")
                                                : Words::tr("disc half veiled"));
    return words.join(QStringLiteral(", "));
}

} // namespace washfast::ui::sunlight
