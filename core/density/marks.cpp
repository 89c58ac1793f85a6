#include "core/density/marks.h"

#include "core/density/words.h"
#include "core/files/read_once.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QSet>
#include <cmath>

namespace washfast::density {

namespace {

constexpr double farthest = 1e6; // pixels
constexpr int mostRegions = 5000;
constexpr double leastDensity = -0.2, mostDensity = 6.0;

/// Carries the first error out of the reading below.
struct Wrong {
    QString where, says;
};

[[noreturn]] void wrong(const QString& where, const QString& says)
{
    throw Wrong { where, says };
}

QString in(const QString& where, const QString& key)
{
    return where.isEmpty() ? key : where + QLatin1Char('.') + key;
}

QString in(const QString& where, qsizetype index)
{
    return where + QStringLiteral("[%1]").arg(index);
}

double number(const QJsonValue& value, const QString& where, double least, double most)
{
    if (!value.isDouble())
        wrong(where, Words::tr("A number has to stand here."));
    const double read = value.toDouble();
    if (!(read >= least && read <= most))
        wrong(where, Words::tr("%1 is not between %2 and %3.").arg(read).arg(least).arg(most));
    return read;
}

QJsonArray list(const QJsonValue& value, const QString& where, qsizetype size)
{
    if (!value.isArray() || value.toArray().size() != size)
        wrong(where, Words::tr("A list of %1 has to stand here.").arg(size));
    return value.toArray();
}

Corners quad(const QJsonValue& value, const QString& where)
{
    const auto points = list(value, where, 4);
    Corners corners {};
    for (qsizetype i = 0; i < 4; ++i) {
        const auto point = list(points[i], in(where, i), 2);
        corners[size_t(i)] = { number(point[0], in(in(where, i), 0), -farthest, farthest),
            number(point[1], in(in(where, i), 1), -farthest, farthest) };
    }
    if (!isConvex(corners))
        wrong(where,
            Words::tr("These four corners span no area, or do not go round: top left, top right, bottom right, "
                      "bottom left."));
    return corners;
}

Corners rect(const QJsonValue& value, const QString& where)
{
    const auto parts = list(value, where, 4);
    std::array<double, 4> v {};
    for (qsizetype i = 0; i < 4; ++i)
        v[size_t(i)] = number(parts[i], in(where, i), -farthest, farthest);
    for (const size_t i : { size_t(2), size_t(3) })
        if (!(v[i] > 0))
            wrong(in(where, qsizetype(i)), Words::tr("Width and height have to be above 0."));
    return rectangle(v[0], v[1], v[2], v[3]);
}

void refuseOthers(const QJsonObject& object, const QString& where, std::initializer_list<const char*> known)
{
    for (auto it = object.begin(); it != object.end(); ++it) {
        bool found = false;
        for (const char* key : known)
            found = found || it.key() == QLatin1String(key);
        if (!found)
            wrong(in(where, it.key()), Words::tr("Nothing of this name is known here."));
    }
}

ChannelDensities densities(const QJsonValue& value, const QString& where)
{
    if (!value.isObject()) {
        const double same = number(value, where, leastDensity, mostDensity);
        return { same, same, same };
    }
    const auto object = value.toObject();
    refuseOthers(object, where, { "red", "green", "blue" });
    ChannelDensities read {};
    constexpr const char* names[] { "red", "green", "blue" };
    for (size_t k = 0; k < 3; ++k) {
        const QString name = QLatin1String(names[k]);
        if (!object.contains(name))
            wrong(in(where, name), Words::tr("This channel is missing."));
        read[k] = number(object[name], in(where, name), leastDensity, mostDensity);
    }
    return read;
}

Region region(const QJsonValue& value, const QString& where)
{
    if (!value.isObject())
        wrong(where, Words::tr("A region in braces has to stand here."));
    const auto object = value.toObject();
    refuseOthers(object, where, { "name", "rect", "quad", "density", "density_sd", "paper" });
    Region read;
    read.name = object[QLatin1String("name")].toString().trimmed();
    if (read.name.isEmpty())
        wrong(in(where, QStringLiteral("name")), Words::tr("The region has no name."));
    const bool has_rect = object.contains(QLatin1String("rect")), has_quad = object.contains(QLatin1String("quad"));
    if (has_rect == has_quad)
        wrong(where, Words::tr("A region has either a rect or a quad."));
    read.corners = has_rect ? rect(object[QLatin1String("rect")], in(where, QStringLiteral("rect")))
                            : quad(object[QLatin1String("quad")], in(where, QStringLiteral("quad")));
    if (const auto density = object[QLatin1String("density")]; !density.isUndefined() && !density.isNull())
        read.density = densities(density, in(where, QStringLiteral("density")));
    if (const auto sd = object[QLatin1String("density_sd")]; !sd.isUndefined() && !sd.isNull())
        read.density_sd = number(sd, in(where, QStringLiteral("density_sd")), 0, 1);
    if (const auto paper = object[QLatin1String("paper")]; !paper.isUndefined()) {
        if (!paper.isBool())
            wrong(in(where, QStringLiteral("paper")), Words::tr("true or false has to stand here."));
        read.paper = paper.toBool();
    }
    return read;
}

size_t choice(const QJsonObject& object, const char* key, std::initializer_list<const char*> words)
{
    const auto value = object[QLatin1String(key)];
    if (value.isUndefined())
        return 0;
    QStringList known;
    for (const char* word : words) {
        if (value.isString() && value.toString() == QLatin1String(word))
            return size_t(known.size());
        known << QLatin1String(word);
    }
    wrong(QLatin1String(key), Words::tr("One of these has to stand here: %1.").arg(known.join(QStringLiteral(", "))));
}

Marks marksFrom(const QJsonObject& object)
{
    refuseOthers(object, {}, { "corners", "flat", "codes", "regions" });
    Marks marks;
    if (const auto corners = object[QLatin1String("corners")]; !corners.isUndefined() && !corners.isNull())
        marks.corners = quad(corners, QStringLiteral("corners"));
    marks.flat = std::array { Flat::None, Flat::Plane }[choice(object, "flat", { "none", "plane" })];
    marks.codes
        = std::array { Codes::Auto, Codes::File, Codes::Linear }[choice(object, "codes", { "auto", "file", "linear" })];
    const QString key = QStringLiteral("regions");
    if (!object[key].isArray() || object[key].toArray().isEmpty())
        wrong(key, Words::tr("No region is marked."));
    const auto regions = object[key].toArray();
    if (regions.size() > mostRegions)
        wrong(key, Words::tr("There are more than %1 regions.").arg(mostRegions));
    QSet<QString> names;
    for (qsizetype i = 0; i < regions.size(); ++i) {
        marks.regions.push_back(region(regions[i], in(key, i)));
        const auto& name = marks.regions.back().name;
        if (names.contains(name))
            wrong(in(in(key, i), QStringLiteral("name")), Words::tr("Two regions are called %1.").arg(name));
        names.insert(name);
    }
    return marks;
}

QJsonArray points(const Corners& corners)
{
    QJsonArray all;
    for (const auto& corner : corners)
        all.append(QJsonArray { corner.x, corner.y });
    return all;
}

} // namespace

Result<Marks> readMarks(const QByteArray& json)
{
    QJsonParseError parsed;
    const auto document = QJsonDocument::fromJson(json, &parsed);
    if (parsed.error != QJsonParseError::NoError) {
        const QByteArray before = json.left(parsed.offset);
        const auto line = before.count('\n') + 1;
        const auto column = before.size() - before.lastIndexOf('\n');
        return Error { Trouble::BadInput, Words::tr("The marks are no JSON: %1.").arg(parsed.errorString()),
            Words::tr("line %1, column %2").arg(line).arg(column) };
    }
    if (!document.isObject())
        return Error { Trouble::BadInput, Words::tr("The marks have to be one object in braces."), {} };
    try {
        return marksFrom(document.object());
    } catch (const Wrong& caught) {
        return Error { Trouble::BadInput, caught.says, caught.where };
    }
}

Result<Marks> openMarks(const QString& path)
{
    constexpr qint64 most = 16 << 20;
    const auto bytes = files::readOnce(path, most);
    if (!bytes)
        return bytes.error();
    const QString name = files::spokenName(path);
    auto marks = readMarks(*bytes);
    if (!marks)
        return Error { marks.error().code, marks.error().says,
            marks.error().where.isEmpty() ? name : name + QStringLiteral(", ") + marks.error().where };
    return marks;
}

QByteArray writeMarks(const Marks& marks)
{
    QJsonObject object;
    if (marks.corners)
        object.insert(QStringLiteral("corners"), points(*marks.corners));
    object.insert(QStringLiteral("flat"), marks.flat == Flat::Plane ? QStringLiteral("plane") : QStringLiteral("none"));
    if (marks.codes != Codes::Auto)
        object.insert(
            QStringLiteral("codes"), marks.codes == Codes::File ? QStringLiteral("file") : QStringLiteral("linear"));
    QJsonArray regions;
    for (const auto& region : marks.regions) {
        QJsonObject one { { QStringLiteral("name"), region.name }, { QStringLiteral("quad"), points(region.corners) } };
        if (region.density)
            one.insert(QStringLiteral("density"),
                QJsonObject { { QStringLiteral("red"), (*region.density)[0] },
                    { QStringLiteral("green"), (*region.density)[1] },
                    { QStringLiteral("blue"), (*region.density)[2] } });
        if (region.density_sd)
            one.insert(QStringLiteral("density_sd"), *region.density_sd);
        if (region.paper)
            one.insert(QStringLiteral("paper"), true);
        regions.append(one);
    }
    object.insert(QStringLiteral("regions"), regions);
    return QJsonDocument(object).toJson();
}

} // namespace washfast::density
