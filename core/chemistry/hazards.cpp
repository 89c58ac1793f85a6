#include "core/chemistry/hazards.h"

#include "core/chemistry/words.h"

#include <QCoreApplication>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QSet>
#include <algorithm>
#include <cmath>
#include <stdexcept>

static void openHazards() // Q_INIT_RESOURCE has to stand outside of a namespace
{
    Q_INIT_RESOURCE(hazards);
}

namespace washfast::chemistry {

namespace {

/// One index unit is 0.025 W/m² of erythemal irradiance (Global Solar UV Index, 2002): 100 J/m² / 0.025 W/m² / 60 s.
constexpr double erythemalMinutesTimesIndex = 100.0 / 0.025 / 60.0;

QJsonObject open(const char* name)
{
    openHazards();
    QFile file(QStringLiteral(":/hazards/%1.json").arg(QLatin1String(name)));
    if (!file.open(QIODevice::ReadOnly))
        throw std::logic_error("a table of hazards was left out of the program");
    QJsonParseError error;
    const auto object = QJsonDocument::fromJson(file.readAll(), &error).object();
    if (error.error != QJsonParseError::NoError)
        throw std::logic_error("a table of hazards is damaged");
    return object;
}

const QJsonObject& statements()
{
    static const QJsonObject object = open("statements");
    return object;
}

QString text(const QJsonObject& object, const char* key)
{
    const auto value = object.value(QLatin1String(key)).toString();
    return value.isEmpty() ? value : QCoreApplication::translate("Hazards", value.toUtf8().constData());
}

QStringList texts(const QJsonObject& object, const char* key)
{
    QStringList list;
    for (const auto& value : object.value(QLatin1String(key)).toArray())
        list << value.toString();
    return list;
}

HazardList readList(const QJsonObject& object)
{
    return { text(object, "source"), object.value(QLatin1String("memory")).toBool(false),
        object.value(QLatin1String("signal")).toString(), texts(object, "codes") };
}

} // namespace

QString deferral()
{
    return Words::tr("Follow your local rules and the supplier's safety data sheet.");
}

QString statementText(const QString& code)
{
    return text(statements().value(QLatin1String("statements")).toObject(), code.toLatin1().constData());
}

QStringList statementCodes()
{
    return statements().value(QLatin1String("statements")).toObject().keys();
}

QString signalWord(const QString& signal)
{
    if (signal == QLatin1String("Danger"))
        return Words::tr("Danger");
    return signal == QLatin1String("Warning") ? Words::tr("Warning") : signal;
}

QString statementSource()
{
    return text(statements(), "source");
}

QStringList SubstanceHazards::all() const
{
    QStringList codes;
    for (const auto& list : lists)
        for (const auto& code : list.codes)
            if (!codes.contains(code))
                codes << code;
    codes.sort();
    return codes;
}

QStringList SubstanceHazards::agreed() const
{
    QStringList codes;
    for (const auto& code : all())
        if (std::all_of(lists.begin(), lists.end(), [&](const auto& list) { return list.codes.contains(code); }))
            codes << code;
    return codes;
}

QStringList SubstanceHazards::disputed() const
{
    const auto same = agreed();
    QStringList codes;
    for (const auto& code : all())
        if (!same.contains(code))
            codes << code;
    return codes;
}

QString SubstanceHazards::signal() const
{
    QString strongest;
    for (const auto& list : lists)
        if (list.signal == QLatin1String("Danger") || strongest.isEmpty())
            strongest = list.signal;
    return strongest;
}

const std::vector<SubstanceHazards>& allHazards()
{
    static const std::vector<SubstanceHazards> all = [] {
        std::vector<SubstanceHazards> read;
        for (const auto& value : open("substances").value(QLatin1String("substances")).toArray()) {
            const auto object = value.toObject();
            for (const auto& key : texts(object, "substances")) {
                SubstanceHazards hazards { key, text(object, "note"), {} };
                for (const auto& list : object.value(QLatin1String("lists")).toArray())
                    hazards.lists.push_back(readList(list.toObject()));
                read.push_back(std::move(hazards));
            }
        }
        return read;
    }();
    return all;
}

const SubstanceHazards* hazardsOf(const QString& substance)
{
    const auto& all = allHazards();
    const auto found
        = std::find_if(all.begin(), all.end(), [&](const auto& hazards) { return hazards.substance == substance; });
    return found == all.end() ? nullptr : &*found;
}

QString Caution::sentence() const
{
    return QStringList { what, why, todo, deferral() }.join(QLatin1Char(' '));
}

const std::vector<Caution>& allCautions()
{
    static const std::vector<Caution> all = [] {
        std::vector<Caution> read;
        for (const auto& value : open("cautions").value(QLatin1String("cautions")).toArray()) {
            const auto object = value.toObject();
            read.push_back({ object.value(QLatin1String("key")).toString(), text(object, "what"), text(object, "why"),
                text(object, "todo"), text(object, "source"), texts(object, "for"), texts(object, "work") });
        }
        return read;
    }();
    return all;
}

const Caution* findCaution(const QString& key)
{
    const auto& all = allCautions();
    const auto found = std::find_if(all.begin(), all.end(), [&](const Caution& caution) { return caution.key == key; });
    return found == all.end() ? nullptr : &*found;
}

std::vector<Caution> cautionsFor(const QStringList& substances, const QString& work)
{
    std::vector<Caution> wanted;
    for (const auto& caution : allCautions()) {
        const bool matches = caution.substances.isEmpty()
            || std::any_of(caution.substances.begin(), caution.substances.end(),
                [&](const QString& key) { return substances.contains(key); });
        if (matches && (work.isEmpty() || caution.work.contains(work)))
            wanted.push_back(caution);
    }
    return wanted;
}

QString uvBand(double uv_index)
{
    const double whole = std::round(uv_index); // the index is given as a whole number
    if (whole < 3)
        return Words::tr("low");
    if (whole < 6)
        return Words::tr("moderate");
    if (whole < 8)
        return Words::tr("high");
    return whole < 11 ? Words::tr("very high") : Words::tr("extreme");
}

Caution sunCaution(std::optional<double> uv_index)
{
    Caution caution = *findCaution(QStringLiteral("sun"));
    if (uv_index && *uv_index > 0)
        caution.why += QLatin1Char(' ')
            + Words::tr("The day's index is %1, %2: one standard erythema dose in about %3 minutes.")
                  .arg(QString::number(*uv_index, 'f', 1), uvBand(*uv_index),
                      QString::number(erythemalMinutesTimesIndex / *uv_index, 'f', *uv_index < 7 ? 0 : 1));
    return caution;
}

} // namespace washfast::chemistry
