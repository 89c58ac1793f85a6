#include "ui/reading/kept_marks.h"

#include "ui/reading/stored_cards.h"
#include "ui/reading/words.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

namespace washfast::ui {

namespace {

constexpr int version = 1;
constexpr double farthest = 1e6; // pixels
constexpr qsizetype most = 5000; // things of one kind
constexpr int mostPlaces = 60;
constexpr double leastDensity = -0.2, mostDensity = 6;

constexpr const char* roles[] { "white", "grey", "paper", "deepest", "middle", "open_border", "covered" };
constexpr const char* channels[] { "red", "green", "blue", "visual" };

QJsonArray points(const density::Corners& corners)
{
    QJsonArray all;
    for (const auto& corner : corners)
        all.append(QJsonArray { corner.x, corner.y });
    return all;
}

/// Carries the first error out of the reading below.
struct Wrong {
    QString where, says;
};

/// A value with its place, for the sentences.
class At {
public:
    At(QJsonValue value, QString where)
        : value_(std::move(value))
        , where_(std::move(where))
    {
    }
    [[noreturn]] void wrong(const QString& says) const { throw Wrong { where_, says }; }
    void mustBe(bool good, const char* says) const
    {
        if (!good)
            wrong(ReadingWords::tr(says));
    }
    [[nodiscard]] bool there() const { return !value_.isUndefined() && !value_.isNull(); }
    [[nodiscard]] bool isObject() const { return value_.isObject(); }
    [[nodiscard]] bool isArray() const { return value_.isArray(); }
    /// A member of an object of which only these are known.
    void onlyThese(std::initializer_list<const char*> known) const
    {
        mustBe(value_.isObject(), QT_TRANSLATE_NOOP("ReadingView", "an object in braces has to stand here."));
        const auto object = value_.toObject();
        for (auto it = object.begin(); it != object.end(); ++it)
            if (std::none_of(
                    known.begin(), known.end(), [&](const char* key) { return it.key() == QLatin1String(key); }))
                (*this)[it.key().toUtf8().constData()].wrong(ReadingWords::tr("nothing of this name is known here."));
    }
    [[nodiscard]] At operator[](const char* key) const
    {
        const auto name = QString::fromUtf8(key);
        return { value_.toObject().value(name), where_.isEmpty() ? name : where_ + QLatin1Char('.') + name };
    }
    [[nodiscard]] At operator[](qsizetype index) const
    {
        return { value_.toArray().at(index), where_ + QStringLiteral("[%1]").arg(index) };
    }
    [[nodiscard]] qsizetype size(qsizetype largest) const
    {
        mustBe(value_.isArray() && value_.toArray().size() <= largest,
            QT_TRANSLATE_NOOP("ReadingView", "a list has to stand here, and not too long a one."));
        return value_.toArray().size();
    }
    [[nodiscard]] double number(double least, double largest) const
    {
        const double read = value_.toDouble();
        if (!value_.isDouble() || !(read >= least && read <= largest))
            wrong(ReadingWords::tr("a number between %1 and %2 has to stand here.").arg(least).arg(largest));
        return read;
    }
    [[nodiscard]] int whole(int least, int largest) const
    {
        const double read = number(least, largest);
        mustBe(read == double(int(read)), QT_TRANSLATE_NOOP("ReadingView", "a whole number has to stand here."));
        return int(read);
    }
    [[nodiscard]] bool yes() const
    {
        mustBe(value_.isBool() || !there(), QT_TRANSLATE_NOOP("ReadingView", "true or false has to stand here."));
        return value_.toBool();
    }
    [[nodiscard]] QString text() const
    {
        mustBe(value_.isString(), QT_TRANSLATE_NOOP("ReadingView", "a text has to stand here."));
        return value_.toString();
    }
    template <size_t n> [[nodiscard]] int choice(const char* const (&words)[n]) const
    {
        const auto read = text();
        for (size_t i = 0; i < n; ++i)
            if (read == QLatin1String(words[i]))
                return int(i);
        wrong(ReadingWords::tr("%1 is not known here.").arg(read));
    }
    [[nodiscard]] density::Corners quad() const
    {
        density::Corners corners {};
        mustBe(size(4) == 4, QT_TRANSLATE_NOOP("ReadingView", "four corners have to stand here."));
        for (qsizetype i = 0; i < 4; ++i) {
            const auto point = (*this)[i];
            point.mustBe(point.size(2) == 2, QT_TRANSLATE_NOOP("ReadingView", "two numbers have to stand here."));
            corners[size_t(i)]
                = { point[qsizetype(0)].number(-farthest, farthest), point[qsizetype(1)].number(-farthest, farthest) };
        }
        mustBe(density::isConvex(corners), QT_TRANSLATE_NOOP("ReadingView", "these four corners span no area."));
        return corners;
    }

private:
    QJsonValue value_;
    QString where_;
};

std::optional<density::ChannelDensities> patch(const At& at)
{
    if (!at.there())
        return {};
    density::ChannelDensities all {};
    if (!at.isArray()) {
        all.fill(at.number(leastDensity, mostDensity));
        return all;
    }
    at.mustBe(at.size(3) == 3, QT_TRANSLATE_NOOP("ReadingView", "three densities have to stand here."));
    for (qsizetype k = 0; k < 3; ++k)
        all[size_t(k)] = at[k].number(leastDensity, mostDensity);
    return all;
}

References references(const At& at, const Notebook& notebook, qint64 card, QStringList& notes)
{
    at.onlyThese({ "white", "grey", "measured", "card", "patches" });
    References out;
    if (!at["card"].there()) {
        out.white = at["white"].number(leastDensity, mostDensity);
        out.grey = at["grey"].number(leastDensity, mostDensity);
        out.measured = at["measured"].yes();
        return out;
    }
    const auto name = at["card"].text();
    CardPatches kept;
    for (qsizetype i = 0, n = at["patches"].size(mostPlaces); i < n; ++i)
        kept.push_back(patch(at["patches"][i]));
    auto stored = cardOf(notebook, card);
    if (!stored)
        if (const auto named = notebook.byName(Entity::Card, name))
            stored = cardOf(notebook, *named);
    if (!stored) {
        notes << ReadingWords::tr(
            "The card %1 that this photo was measured with is no longer there. Choose what to measure against.")
                     .arg(name);
        return out;
    }
    if (stored->patches != kept)
        notes << ReadingWords::tr(
            "The densities of the card %1 have been changed since readings were entered from this photo.")
                     .arg(stored->name);
    return against(*stored, out);
}

Marked marked(const At& root, QSize photo, const Notebook& notebook, qint64 card, QStringList& notes)
{
    root.mustBe(root["version"].there(), QT_TRANSLATE_NOOP("ReadingView", "they do not say their version."));
    if (const int its = root["version"].whole(1, 1'000'000); its > version)
        root["version"].wrong(ReadingWords::tr("%1 is of a newer Washfast.").arg(its));
    root.onlyThese({ "version", "photo", "references", "level", "when", "channel", "regions", "outlines", "rows" });
    const auto size = root["photo"];
    size.mustBe(size.size(2) == 2, QT_TRANSLATE_NOOP("ReadingView", "width and height have to stand here."));
    if (QSize(size[qsizetype(0)].whole(1, 1'000'000), size[qsizetype(1)].whole(1, 1'000'000)) != photo)
        size.wrong(ReadingWords::tr("the photo is of another size."));
    Marked out;
    out.references = references(root["references"], notebook, card, notes);
    out.level = root["level"].yes();
    const auto when = root["when"];
    out.when = when.text();
    when.mustBe(notebook.catalogue().columnField(Entity::Reading, u"reading_when").choiceIndex(out.when) >= 0,
        QT_TRANSLATE_NOOP("ReadingView", "this state of a print is not known."));
    out.channel = root["channel"].choice(channels);
    for (qsizetype i = 0, n = root["regions"].size(most); i < n; ++i) {
        const auto at = root["regions"][i];
        at.onlyThese({ "role", "quad" });
        out.marks.push_back({ static_cast<MarkRole>(at["role"].choice(roles)), at["quad"].quad() });
    }
    for (qsizetype i = 0, n = root["outlines"].size(most); i < n; ++i) {
        const auto at = root["outlines"][i];
        at.onlyThese({ "quad", "print" });
        PrintOutline outline { at["quad"].quad(), 0 };
        if (at["print"].there()) {
            const auto code = at["print"].text();
            outline.print = notebook.byName(Entity::Print, code).value_or(0);
            if (outline.print == 0)
                notes << ReadingWords::tr("There is no print %1 any more; its outline is assigned to none.").arg(code);
        }
        out.outlines.push_back(outline);
    }
    for (qsizetype i = 0, n = root["rows"].size(most); i < n; ++i) {
        const auto at = root["rows"][i];
        at.onlyThese({ "kind", "quad", "count", "found", "turned" });
        constexpr const char* kinds[] { "patches", "wedge" };
        MarkedRow row;
        row.kind = at["kind"].choice(kinds) == 1 ? MarkedRow::Kind::Wedge : MarkedRow::Kind::Patches;
        row.corners = at["quad"].quad();
        row.count = at["count"].there() ? at["count"].whole(2, mostPlaces) : 0;
        row.found = at["found"].there() ? at["found"].whole(2, mostPlaces) : 0;
        row.turned = at["turned"].yes();
        out.rows.push_back(row);
    }
    return out;
}

} // namespace

QString writeKeptMarks(const Marked& marked, QSize photo, const Notebook& notebook)
{
    QJsonObject references;
    if (marked.references.card) {
        QJsonArray patches;
        for (const auto& patch : marked.references.patches)
            patches.append(patch ? QJsonValue(QJsonArray { (*patch)[0], (*patch)[1], (*patch)[2] }) : QJsonValue());
        references
            = { { QStringLiteral("card"), marked.references.card_name }, { QStringLiteral("patches"), patches } };
    } else
        references = { { QStringLiteral("white"), marked.references.white },
            { QStringLiteral("grey"), marked.references.grey },
            { QStringLiteral("measured"), marked.references.measured } };
    QJsonArray regions, outlines, rows;
    for (const auto& mark : marked.marks)
        regions.append(QJsonObject { { QStringLiteral("role"), QLatin1String(roles[size_t(mark.role)]) },
            { QStringLiteral("quad"), points(mark.corners) } });
    for (const auto& outline : marked.outlines) {
        QJsonObject one { { QStringLiteral("quad"), points(outline.corners) } };
        if (outline.print)
            one.insert(QStringLiteral("print"), notebook.nameOf({ Entity::Print, outline.print }));
        outlines.append(one);
    }
    for (const auto& row : marked.rows) {
        const bool wedge = row.kind == MarkedRow::Kind::Wedge;
        QJsonObject one { { QStringLiteral("kind"), wedge ? QStringLiteral("wedge") : QStringLiteral("patches") },
            { QStringLiteral("quad"), points(row.corners) }, { QStringLiteral("turned"), row.turned } };
        if (row.count > 0)
            one.insert(QStringLiteral("count"), row.count);
        if (row.found > 0)
            one.insert(QStringLiteral("found"), row.found);
        rows.append(one);
    }
    const QJsonObject all { { QStringLiteral("version"), version },
        { QStringLiteral("photo"), QJsonArray { photo.width(), photo.height() } },
        { QStringLiteral("references"), references }, { QStringLiteral("level"), marked.level },
        { QStringLiteral("when"), marked.when }, { QStringLiteral("channel"), QLatin1String(channels[marked.channel]) },
        { QStringLiteral("regions"), regions }, { QStringLiteral("outlines"), outlines },
        { QStringLiteral("rows"), rows } };
    return QString::fromUtf8(QJsonDocument(all).toJson(QJsonDocument::Compact));
}

Result<KeptMarks> readKeptMarks(const QString& json, QSize photo, const Notebook& notebook, qint64 card)
{
    const auto refuse = [](const QString& why) {
        return Error { Trouble::BadInput,
            ReadingWords::tr(
                "What was marked in this photo earlier is not understood (%1). It is left as it is; new marks will not "
                "be kept.")
                .arg(why),
            {} };
    };
    const auto bytes = json.toUtf8();
    QJsonParseError parsed;
    const auto document = QJsonDocument::fromJson(bytes, &parsed);
    if (parsed.error != QJsonParseError::NoError)
        return refuse(ReadingWords::tr("no JSON at character %1: %2").arg(parsed.offset).arg(parsed.errorString()));
    KeptMarks kept;
    try {
        kept.marked = marked({ document.isObject() ? QJsonValue(document.object()) : QJsonValue(), {} }, photo,
            notebook, card, kept.notes);
    } catch (const Wrong& wrong) {
        return refuse(wrong.where.isEmpty() ? wrong.says : wrong.where + QStringLiteral(": ") + wrong.says);
    }
    return kept;
}

} // namespace washfast::ui
