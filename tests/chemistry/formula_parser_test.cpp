// The formula reader: what people write, what it must refuse and where, and properties over many made-up formulas.
#include "core/chemistry/atomic_weights.h"
#include "core/chemistry/molar_mass.h"

#include <gmock/gmock.h>
#include <random>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::chemistry;

namespace {

QString u(const char* text)
{
    return QString::fromUtf8(text);
}

Composition read(const QString& text)
{
    const auto reading = readFormula(text);
    EXPECT_TRUE(reading.ok()) << text.toStdString() << ": "
                              << (reading.fault ? reading.fault->error(text).sentence().toStdString() : "");
    return reading.composition.value_or(Composition {});
}
Composition read(const char* text)
{
    return read(u(text));
}

Composition atoms(std::initializer_list<std::pair<const char*, double>> counts, int charge = 0)
{
    Composition composition;
    for (const auto& [symbol, count] : counts)
        composition.atoms[u(symbol)] = count;
    composition.charge = charge;
    return composition;
}

} // namespace

TEST(FormulaReader, ReadsBracketsAndHydrates)
{
    EXPECT_EQ(read("K3[Fe(CN)6]"), atoms({ { "K", 3 }, { "Fe", 1 }, { "C", 6 }, { "N", 6 } }));
    const auto chloride = atoms({ { "Fe", 1 }, { "Cl", 3 }, { "H", 12 }, { "O", 6 } });
    for (const char* spelling : { "FeCl3.6H2O", "FeCl3·6H2O", "FeCl3*6H2O", "FeCl3•6H2O", "FeCl3⋅6H2O", "FeCl3 · 6 H2O",
             "  FeCl3.6H2O ", "FeCl3.6(H2O)", "FeCl₃·6H₂O", "[Fe(H2O)6]Cl3", "[FeCl3{H2O}6]" })
        EXPECT_EQ(read(spelling), chloride) << spelling;
    EXPECT_EQ(read("(NH4)3[Fe(C2O4)3].3H2O"), atoms({ { "N", 3 }, { "H", 18 }, { "Fe", 1 }, { "C", 6 }, { "O", 15 } }));
    EXPECT_EQ(read("CaSO4.0.5H2O"), atoms({ { "Ca", 1 }, { "S", 1 }, { "O", 4.5 }, { "H", 1 } }));
    EXPECT_EQ(read("2Na2CO3.3H2O2"), atoms({ { "Na", 4 }, { "C", 2 }, { "O", 12 }, { "H", 6 } }));
    EXPECT_EQ(read("CH3COOH"), atoms({ { "C", 2 }, { "H", 4 }, { "O", 2 } }));
    EXPECT_EQ(read("Co"), atoms({ { "Co", 1 } }));
    EXPECT_EQ(read("CO"), atoms({ { "C", 1 }, { "O", 1 } }));
}

TEST(FormulaReader, ReadsCharges)
{
    const auto iron = atoms({ { "Fe", 1 }, { "C", 6 }, { "N", 6 } }, -3);
    for (const char* spelling : { "[Fe(CN)6]3-", "[Fe(CN)6]^3-", "[Fe(CN)6]^-3", "[Fe(CN)6]³⁻", "[Fe(CN)6]3−" })
        EXPECT_EQ(read(spelling), iron) << spelling;
    EXPECT_EQ(read("Fe^3+"), atoms({ { "Fe", 1 } }, 3));
    EXPECT_EQ(read("Fe³⁺"), atoms({ { "Fe", 1 } }, 3));
    EXPECT_EQ(read("NH4^+"), atoms({ { "N", 1 }, { "H", 4 } }, 1));
    EXPECT_EQ(read("Cl-"), atoms({ { "Cl", 1 } }, -1));
    EXPECT_EQ(read("H+"), atoms({ { "H", 1 } }, 1));
    EXPECT_EQ(read("C2O4^2-"), atoms({ { "C", 2 }, { "O", 4 } }, -2));
}

struct Nonsense {
    const char* text;
    int at; // from 0
};

class RefusedFormula : public testing::TestWithParam<Nonsense> { };

TEST_P(RefusedFormula, SaysWhere)
{
    const QString text = u(GetParam().text);
    const auto reading = readFormula(text);
    ASSERT_FALSE(reading.ok()) << GetParam().text;
    ASSERT_TRUE(reading.fault);
    EXPECT_EQ(reading.fault->at, GetParam().at) << reading.fault->says.toStdString();
    const auto sentence = reading.fault->error(text).sentence().toStdString();
    EXPECT_THAT(sentence,
        GetParam().at >= text.size() ? testing::HasSubstr("At the end")
                                     : testing::HasSubstr("Character " + std::to_string(GetParam().at + 1)));
}

INSTANTIATE_TEST_SUITE_P(Nonsense, RefusedFormula,
    testing::Values(Nonsense { "", 0 }, Nonsense { "   ", 3 }, Nonsense { "Xx", 0 }, Nonsense { "FeXx3", 2 },
        Nonsense { "fe", 0 }, Nonsense { "FEcl3", 1 }, Nonsense { "FeCl3.", 6 }, Nonsense { "FeCl3.6", 7 },
        Nonsense { ".6H2O", 0 }, Nonsense { "K3[Fe(CN)6", 2 }, Nonsense { "K3[Fe(CN6]", 9 }, Nonsense { "K3Fe)CN", 4 },
        Nonsense { "K3()Cl", 3 }, Nonsense { "Fe0", 2 }, Nonsense { "Fe03", 2 }, Nonsense { "FeCl3.0H2O", 6 },
        Nonsense { "Fe99999", 2 }, Nonsense { "Fe3+", 2 }, Nonsense { "SO42-", 2 }, Nonsense { "Fe^3", 2 },
        Nonsense { "Fe^", 2 }, Nonsense { "[Fe]0+", 4 }, Nonsense { "Fe^3+Cl", 5 }, Nonsense { "Fe Cl3", 3 },
        Nonsense { "FeCl3 6H2O", 6 }, Nonsense { "Fe(Cl.H2O)", 5 }, Nonsense { "Fe$", 2 }, Nonsense { "12", 2 },
        Nonsense { "FeCl3..6H2O", 6 }, Nonsense { "citric acid", 0 }, Nonsense { "Fe\nCl", 3 },
        Nonsense { "CuSO4.5.H2O", 7 }));

TEST(FormulaReader, RefusesWhatIsTooLongOrTooDeep)
{
    EXPECT_FALSE(readFormula(QStringLiteral("H2").repeated(101)).ok());
    EXPECT_TRUE(readFormula(QStringLiteral("H2").repeated(100)).ok());
    const auto nested = [](int depth) {
        return QStringLiteral("(").repeated(depth) + QStringLiteral("H") + QStringLiteral(")").repeated(depth);
    };
    EXPECT_TRUE(readFormula(nested(20)).ok());
    const auto deep = readFormula(nested(21));
    ASSERT_FALSE(deep.ok());
    EXPECT_EQ(deep.fault->at, 20);
    EXPECT_FALSE(molarMass(QStringLiteral("TcO2")).ok()); // an element without a standard weight
}

namespace {

/// A random formula together with what it means, built from the inside out.
class Made {
public:
    explicit Made(unsigned seed)
        : random_(seed)
    {
    }

    std::pair<QString, Composition> group(int depth)
    {
        QString text;
        Composition sum;
        const int pieces = 1 + pick(3);
        for (int i = 0; i < pieces; ++i) {
            const int n = 1 + pick(12);
            const QString count = n == 1 ? QString() : QString::number(n);
            if (depth > 0 && pick(3) == 0) {
                const auto [inner, atoms] = group(depth - 1);
                static const char* brackets[] = { "()", "[]", "{}" };
                const char* pair = brackets[pick(3)];
                text += QLatin1Char(pair[0]) + inner + QLatin1Char(pair[1]) + count;
                add(sum, atoms, n);
            } else {
                static const char* symbols[] = { "H", "C", "N", "O", "K", "Fe", "Cl", "Na", "S", "Co", "Cr", "Hf" };
                const QString symbol = QString::fromLatin1(symbols[pick(12)]);
                text += symbol + count;
                sum.atoms[symbol] += n;
            }
        }
        return { text, sum };
    }

    std::pair<QString, Composition> formula()
    {
        auto [text, sum] = group(3);
        static const char* dots[] = { ".", "·", "*", " · " };
        for (int i = pick(3); i > 0; --i) {
            const auto [part, atoms] = group(1);
            const int n = 1 + pick(12);
            text += QString::fromUtf8(dots[pick(4)]) + (n == 1 ? QString() : QString::number(n)) + part;
            add(sum, atoms, n);
        }
        return { text, sum };
    }
    int pick(int n) { return int(random_() % unsigned(n)); }

private:
    static void add(Composition& to, const Composition& part, int n)
    {
        for (auto atom = part.atoms.begin(); atom != part.atoms.end(); ++atom)
            to.atoms[atom.key()] += atom.value() * n;
    }
    std::mt19937 random_;
};

} // namespace

TEST(FormulaReader, ReadsWhatWasBuilt)
{
    Made made(1842);
    for (int i = 0; i < 2000; ++i) {
        const auto [text, composition] = made.formula();
        if (text.size() > 200)
            continue;
        EXPECT_EQ(read(text), composition) << text.toStdString();
        EXPECT_EQ(read(prettyFormula(text)), composition) << prettyFormula(text).toStdString();
    }
}

TEST(FormulaReader, MassOfAMultipleIsTheMultipleOfTheMass)
{
    Made made(77);
    for (int i = 0; i < 500; ++i) {
        const auto [text, composition] = made.group(2);
        const int n = 2 + made.pick(30);
        const auto one = molarMass(text), many = molarMass(QStringLiteral("(%1)%2").arg(text).arg(n));
        ASSERT_TRUE(one && many) << text.toStdString();
        EXPECT_NEAR(*many, n * *one, 1e-9 * *many);
        const auto hydrate = molarMass(text + QStringLiteral(".%1H2O").arg(n));
        ASSERT_TRUE(hydrate) << text.toStdString();
        EXPECT_NEAR(*hydrate - *one, n * *molarMass(QStringLiteral("H2O")), 1e-6);
    }
}

TEST(FormulaReader, NoTextBreaksIt)
{
    std::mt19937 random(5);
    const QString alphabet = u("FeClHOKN3602()[]{}.·*^+-³⁻ axzZ\n\0é");
    for (int i = 0; i < 20000; ++i) {
        QString text;
        for (auto n = random() % 24; n > 0; --n)
            text += alphabet[qsizetype(random() % size_t(alphabet.size()))];
        const auto reading = readFormula(text);
        EXPECT_NE(reading.composition.has_value(), reading.fault.has_value());
        if (reading.fault) {
            EXPECT_GE(reading.fault->at, 0);
            EXPECT_LE(reading.fault->at, text.size());
            EXPECT_FALSE(reading.fault->says.isEmpty());
        } else {
            EXPECT_FALSE(reading.composition->atoms.isEmpty());
            EXPECT_EQ(readFormula(prettyFormula(text)).composition, reading.composition) << text.toStdString();
        }
    }
}

TEST(PrettyFormula, HasSmallFiguresAndADot)
{
    EXPECT_EQ(prettyFormula(u("FeCl3.6H2O")), u("FeCl₃·6H₂O"));
    EXPECT_EQ(prettyFormula(u("K3[Fe(CN)6]")), u("K₃[Fe(CN)₆]"));
    EXPECT_EQ(prettyFormula(u("[Fe(CN)6]3-")), u("[Fe(CN)₆]³⁻"));
    EXPECT_EQ(prettyFormula(u("Fe^3+")), u("Fe³⁺"));
    EXPECT_EQ(prettyFormula(u("CaSO4.0.5H2O")), u("CaSO₄·0.5H₂O"));
    EXPECT_EQ(prettyFormula(u("nonsense")), u("nonsense"));
}

} // namespace WASHFAST_FILE
