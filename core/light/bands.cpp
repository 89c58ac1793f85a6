#include "core/light/bands.h"

#include "core/files/read_once.h"
#include "core/light/words.h"
#include "core/quantity/number_text.h"

#include <QRegularExpression>
#include <algorithm>
#include <cmath>

namespace washfast::light {

namespace {

Error wrong(const QString& says)
{
    return { Trouble::BadInput, says, {} };
}

/// A number between these separators, a share also in per cent; where they are no commas, "1,000" can only be a number
/// with decimals.
std::optional<double> spectrumNumber(const QString& cell, QChar separator)
{
    auto read = parseNumber(cell, separator == QLatin1Char(',') ? DecimalMark::Point : DecimalMark::Undecided);
    if (read.fault == NumberFault::Ambiguous)
        read = parseNumber(cell, DecimalMark::Comma);
    return read.value && !read.unit.isEmpty() ? convert(*read.value, read.unit, u"1") : read.value;
}

QChar separatorOf(const QString& header)
{
    for (const QChar separator : { QLatin1Char('\t'), QLatin1Char(';') })
        if (header.contains(separator))
            return separator;
    return QLatin1Char(',');
}

} // namespace

Actinic Actinic::coat(double absorbance_365, double tail_nm)
{
    const auto absorbed
        = [&](double nm) { return nm * (1 - std::pow(10, -absorbance_365 * std::exp(-(nm - 365) / tail_nm))); };
    Actinic made { Words::tr("as the coat absorbs"), trapezoid(300, 450) };
    for (size_t i = 0; i < bandCount; ++i)
        made.weights[i] *= absorbed(wavelengths_nm[i]) / absorbed(365);
    return made;
}

double SpectrumTable::at(double wavelength_nm) const
{
    if (nm.empty())
        return 0;
    const auto above = std::upper_bound(nm.begin(), nm.end(), wavelength_nm);
    if (above == nm.begin())
        return value.front();
    if (above == nm.end())
        return value.back();
    const auto i = size_t(above - nm.begin());
    const double share = (wavelength_nm - nm[i - 1]) / (nm[i] - nm[i - 1]);
    return value[i - 1] + share * (value[i] - value[i - 1]);
}

bool SpectrumTable::covers(double from_nm, double to_nm) const
{
    return !nm.empty() && nm.front() <= from_nm && nm.back() >= to_nm;
}

Bands SpectrumTable::onBands() const
{
    Bands bands {};
    for (size_t i = 0; i < bandCount; ++i)
        bands[i] = at(wavelengths_nm[i]);
    return bands;
}

Bands SpectrumTable::averagedOnBands() const
{
    Bands bands {};
    constexpr double step = 0.5;
    for (size_t i = 0; i < bandCount; ++i) {
        const double middle = wavelengths_nm[i];
        const double below = i > 0 ? wavelengths_nm[i - 1] : middle - 5;
        const double above = i + 1 < bandCount ? wavelengths_nm[i + 1] : middle + 10;
        double sum = 0;
        double weights = 0;
        for (double x = below; x <= above; x += step) {
            const double weight = x < middle ? (x - below) / (middle - below) : (above - x) / (above - middle);
            sum += weight * at(x);
            weights += weight;
        }
        bands[i] = sum / weights;
    }
    return bands;
}

Result<SpectrumTable> readSpectrum(const QByteArray& bytes, QLatin1String column, double low, double high)
{
    SpectrumTable table;
    qsizetype nm_at = -1;
    qsizetype value_at = -1;
    QChar separator = QLatin1Char(',');
    int number = 0;
    for (const auto& raw : bytes.split('\n')) {
        ++number;
        auto line = QString::fromUtf8(raw).trimmed();
        if (number == 1 && line.startsWith(QChar(0xfeff)))
            line.remove(0, 1);
        if (line.isEmpty() || line.startsWith(QLatin1Char('#')))
            continue;
        if (nm_at < 0) {
            separator = separatorOf(line);
            const auto headings = line.split(separator);
            for (qsizetype i = 0; i < headings.size(); ++i) {
                const auto heading = headings[i].trimmed();
                if (heading == QLatin1String("wavelength_nm"))
                    nm_at = i;
                else if (heading == column)
                    value_at = i;
            }
            if (nm_at < 0 || value_at < 0)
                return wrong(Words::tr("The first line has to name the columns wavelength_nm and %1.").arg(column));
            continue;
        }
        const auto cells = line.split(separator);
        const auto numberAt = [&](qsizetype at) { return spectrumNumber(cells.value(at), separator); };
        const auto nm = numberAt(nm_at);
        const auto value = numberAt(value_at);
        if (!nm || !value)
            return wrong(Words::tr("Line %1 does not hold two numbers.").arg(number));
        if (!table.nm.empty() && *nm <= table.nm.back())
            return wrong(Words::tr("Line %1: the wavelengths have to rise, %2 nm follows %3 nm.")
                             .arg(number)
                             .arg(*nm)
                             .arg(table.nm.back()));
        if (*value < low || *value > high)
            return wrong(Words::tr("Line %1: %2 has to lie between %3 and %4, not %5.")
                             .arg(number)
                             .arg(column)
                             .arg(low)
                             .arg(high)
                             .arg(*value));
        table.nm.push_back(*nm);
        table.value.push_back(*value);
    }
    if (table.nm.size() < 2)
        return wrong(Words::tr("There are fewer than two wavelengths in it."));
    return table;
}

Result<SpectrumTable> spectrumOfPairs(const QString& text, double low, double high)
{
    static const QRegularExpression gaps(QStringLiteral("[\\s;]+"));
    SpectrumTable table;
    for (const auto& pair : text.split(gaps, Qt::SkipEmptyParts)) {
        const auto parts = pair.split(QLatin1Char(':'));
        const auto read_nm = spectrumNumber(parts.value(0), QLatin1Char(' '));
        const auto read_value = spectrumNumber(parts.value(1), QLatin1Char(' '));
        const double nm = read_nm.value_or(0), value = read_value.value_or(0);
        if (parts.size() != 2 || !read_nm || !read_value || nm <= 0)
            return wrong(Words::tr("“%1” is no pair of a wavelength in nm and a value, such as 340:0.70.").arg(pair));
        if (!table.nm.empty() && nm <= table.nm.back())
            return wrong(
                Words::tr("“%1”: the wavelengths have to rise; it follows %2 nm.").arg(pair).arg(table.nm.back()));
        if (value < low || value > high)
            return wrong(Words::tr("“%1”: the value has to lie between %2 and %3.").arg(pair).arg(low).arg(high));
        table.nm.push_back(nm);
        table.value.push_back(value);
    }
    if (table.nm.size() < 2)
        return wrong(Words::tr("There are fewer than two wavelengths in it."));
    return table;
}

Result<SpectrumTable> readSpectrumFile(const QString& path, QLatin1String column, double low, double high)
{
    constexpr qint64 most = 16 << 20;
    const auto bytes = files::readOnce(path, most);
    if (!bytes)
        return bytes.error();
    auto read = readSpectrum(*bytes, column, low, high);
    if (!read)
        return Error { read.error().code, read.error().says, path };
    return read;
}

} // namespace washfast::light
