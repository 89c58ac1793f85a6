#include "app/cli/arguments.h"

#include "app/cli/words.h"
#include "core/quantity/number_text.h"
#include "core/quantity/value_text.h"

#include <algorithm>

namespace washfast::cli {

namespace {

Error wrong(const QString& says)
{
    return { Trouble::BadInput, says, {} };
}

const Option* find(const Shape& shape, const QString& name)
{
    const auto found = std::find_if(shape.options.begin(), shape.options.end(),
        [&](const Option& option) { return name == QLatin1String(option.name); });
    return found == shape.options.end() ? nullptr : &*found;
}

} // namespace

QStringList Arguments::list(const char* option) const
{
    QStringList parts;
    for (const auto& part : value(option).split(QLatin1Char(',')))
        if (const auto text = part.trimmed(); !text.isEmpty())
            parts << text;
    return parts;
}

std::optional<double> numberIn(const QString& text, const char* unit)
{
    const auto read = parseNumber(text);
    return read.value && !read.unit.isEmpty() ? convert(*read.value, read.unit, QString::fromUtf8(unit)) : read.value;
}

Result<std::optional<double>> Arguments::number(const char* option, double low, double high, const char* unit) const
{
    if (!has(option))
        return std::optional<double>();
    const auto text = value(option);
    const auto read = numberIn(text, unit);
    if (!read || *read < low || *read > high)
        return wrong(Words::tr("%1 needs a number from %2 to %3, not “%4”.")
                         .arg(QLatin1String(option), isoNumber(low), isoNumber(high), text));
    return read;
}

Result<Arguments> readArguments(const Shape& shape, const QStringList& words)
{
    Arguments arguments;
    bool options = true;
    for (qsizetype i = 0; i < words.size(); ++i) {
        const QString& word = words[i];
        if (options && word == QLatin1String("--")) {
            options = false;
            continue;
        }
        if (!options || !word.startsWith(QLatin1Char('-')) || word.size() < 2) {
            arguments.files_ << word;
            continue;
        }
        const qsizetype equals = word.indexOf(QLatin1Char('='));
        const QString name = equals < 0 ? word : word.left(equals);
        const auto* option = find(shape, name);
        if (!option)
            return wrong(Words::tr("There is no option %1 here.").arg(name));
        auto& values = arguments.values_[name];
        if (!values.isEmpty() && !option->repeats)
            return wrong(Words::tr("%1 stands there twice.").arg(name));
        if (!option->value) {
            if (equals >= 0)
                return wrong(Words::tr("%1 takes no value.").arg(name));
            values << QString();
        } else if (equals >= 0) {
            values << word.mid(equals + 1);
        } else if (i + 1 < words.size() && !words[i + 1].startsWith(QLatin1String("--"))) {
            values << words[++i];
        } else {
            return wrong(Words::tr("%1 needs a value: %1 %2.").arg(name, QString::fromLatin1(option->value)));
        }
    }
    for (size_t i = size_t(arguments.files_.size()); i < shape.files.size(); ++i)
        return wrong(Words::tr("%1 is missing.").arg(QString::fromLatin1(shape.files[i])));
    if (arguments.files_.size() > qsizetype(shape.files.size()))
        return wrong(Words::tr("“%1” is one word too many.").arg(arguments.files_[qsizetype(shape.files.size())]));
    return arguments;
}

} // namespace washfast::cli
