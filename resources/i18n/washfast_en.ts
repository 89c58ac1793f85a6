<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="en" sourcelanguage="en">
<context>
    <name>Bench</name>
    <message numerus="yes">
        <source>%n exposures</source>
        <translation>
            <numerusform>%n exposures</numerusform><numerusform>%n exposures</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n baths</source>
        <translation>
            <numerusform>%n baths</numerusform><numerusform>%n baths</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n readings</source>
        <translation>
            <numerusform>%n readings</numerusform><numerusform>%n readings</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n not begun</source>
        <translation>
            <numerusform>%n not begun</numerusform><numerusform>%n not begun</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n finished</source>
        <translation>
            <numerusform>%n finished</numerusform><numerusform>%n finished</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n prints</source>
        <translation>
            <numerusform>%n prints</numerusform><numerusform>%n prints</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n waiting for the day after</source>
        <translation>
            <numerusform>%n waiting for the day after</numerusform><numerusform>%n waiting for the day after</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n due: reading a day after</source>
        <translation>
            <numerusform>%n due: reading a day after</numerusform><numerusform>%n due: reading a day after</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n masses, %1</source>
        <translation>
            <numerusform>%n masses, %1</numerusform><numerusform>%n masses, %1</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n readings, %1</source>
        <translation>
            <numerusform>%n readings, %1</numerusform><numerusform>%n readings, %1</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n readings, %1, %2</source>
        <translation>
            <numerusform>%n readings, %1, %2</numerusform><numerusform>%n readings, %1, %2</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%1 and %n more</source>
        <translation>
            <numerusform>%1 and %n more</numerusform><numerusform>%1 and %n more</numerusform></translation>
    </message>
</context>
<context>
    <name>Curves</name>
    <message numerus="yes">
        <source>More exposure (+) or less (−) that is needed as the mix gets older, from %n print(s). An interval that holds both says that no drift is to be seen.</source>
        <translation>
            <numerusform>More exposure (+) or less (−) that is needed as the mix gets older, from %n print. An interval that holds both says that no drift is to be seen.</numerusform><numerusform>More exposure (+) or less (−) that is needed as the mix gets older, from %n prints. An interval that holds both says that no drift is to be seen.</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>Its own steps do not show how steep the curve is: the slope is that of %n other print(s) of this formula on this paper.</source>
        <translation>
            <numerusform>Its own steps do not show how steep the curve is: the slope is that of %n other print of this formula on this paper.</numerusform><numerusform>Its own steps do not show how steep the curve is: the slope is that of %n other prints of this formula on this paper.</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n print(s), each with a speed of its own; the curve is that of a print of ordinary speed.</source>
        <translation>
            <numerusform>%n print, each with a speed of its own; the curve is that of a print of ordinary speed.</numerusform><numerusform>%n prints, each with a speed of its own; the curve is that of a print of ordinary speed.</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>Set the wanted dose of %n print(s) of session %1 (%2, not exposed yet) to %3 J/cm²?</source>
        <translation>
            <numerusform>Set the wanted dose of %n print of session %1 (%2, not exposed yet) to %3 J/cm²?</numerusform><numerusform>Set the wanted dose of %n prints of session %1 (%2, not exposed yet) to %3 J/cm²?</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>Another one is set for %n of them now.</source>
        <translation>
            <numerusform>Another one is set for %n of them now.</numerusform><numerusform>Another one is set for %n of them now.</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>Wanted dose of %n print(s) set to %1 J/cm².</source>
        <translation>
            <numerusform>Wanted dose of %n print set to %1 J/cm².</numerusform><numerusform>Wanted dose of %n prints set to %1 J/cm².</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>“%1” has %n step(s) with both a printed value and an ultraviolet density; a tone table needs at least three.</source>
        <translation>
            <numerusform>“%1” has %n step with both a printed value and an ultraviolet density; a tone table needs at least three.</numerusform><numerusform>“%1” has %n steps with both a printed value and an ultraviolet density; a tone table needs at least three.</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>Let the ink dry. The chart has %n step(s) from 0 to 100 per cent of ink, in even steps; step 1 is the clear one.</source>
        <translation>
            <numerusform>Let the ink dry. The chart has %n step from 0 to 100 per cent of ink, in even steps; step 1 is the clear one.</numerusform><numerusform>Let the ink dry. The chart has %n steps from 0 to 100 per cent of ink, in even steps; step 1 is the clear one.</numerusform></translation>
    </message>
</context>
<context>
    <name>Drying</name>
    <message numerus="yes">
        <source>Drying as in %n earlier print(s) on this paper by this method.</source>
        <translation>
            <numerusform>Drying as in %n earlier print on this paper by this method.</numerusform><numerusform>Drying as in %n earlier prints on this paper by this method.</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>Drying as in %n earlier print(s) by this method on other paper.</source>
        <translation>
            <numerusform>Drying as in %n earlier print by this method on other paper.</numerusform><numerusform>Drying as in %n earlier prints by this method on other paper.</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::AgePlot</name>
    <message numerus="yes">
        <source>Net density against the age of the mix when coated, %n print(s)</source>
        <translation>
            <numerusform>Net density against the age of the mix when coated, %n print</numerusform><numerusform>Net density against the age of the mix when coated, %n prints</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::AnswerPanel</name>
    <message numerus="yes">
        <source>and %n more</source>
        <translation>
            <numerusform>and %n more</numerusform><numerusform>and %n more</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::BesideView</name>
    <message numerus="yes">
        <source>%n row(s) differ</source>
        <translation>
            <numerusform>%n row differs</numerusform><numerusform>%n rows differ</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::CausesView</name>
    <message numerus="yes">
        <source>Exact tests of %n factor(s).</source>
        <translation>
            <numerusform>Exact tests of %n factor.</numerusform><numerusform>Exact tests of %n factors.</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n print(s) not shown: this or the outcome was not recorded</source>
        <translation>
            <numerusform>%n print not shown: this or the outcome was not recorded</numerusform><numerusform>%n prints not shown: this or the outcome was not recorded</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::CurvesView</name>
    <message numerus="yes">
        <source>This plot needs "%1" and "%2" of a print. %n print(s) lack one of them.</source>
        <translation>
            <numerusform>This plot needs "%1" and "%2" of a print. %n print lacks one of them.</numerusform><numerusform>This plot needs "%1" and "%2" of a print. %n prints lack one of them.</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::Desk</name>
    <message numerus="yes">
        <source>%1, %n print(s)</source>
        <translation>
            <numerusform>%1, %n print</numerusform><numerusform>%1, %n prints</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::FactorModel</name>
    <message numerus="yes">
        <source> (%n disagree)</source>
        <translation>
            <numerusform> (%n disagrees)</numerusform><numerusform> (%n disagree)</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%1: %n print(s), median outcome %2</source>
        <translation>
            <numerusform>%1: %n print, median outcome %2</numerusform><numerusform>%1: %n prints, median outcome %2</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::ImportDialog</name>
    <message numerus="yes">
        <source>%1: %n row(s)</source>
        <translation>
            <numerusform>%1: %n row</numerusform><numerusform>%1: %n rows</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::ImportModel</name>
    <message numerus="yes">
        <source>%n value(s)</source>
        <translation>
            <numerusform>%n value</numerusform><numerusform>%n values</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::MixingView</name>
    <message numerus="yes">
        <source>Kept: %1, for %n print(s) of the session. Ctrl+Z takes it back.</source>
        <translation>
            <numerusform>Kept: %1, for %n print of the session. Ctrl+Z takes it back.</numerusform><numerusform>Kept: %1, for %n prints of the session. Ctrl+Z takes it back.</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::NextPage</name>
    <message numerus="yes">
        <source>%n print(s) that would tell apart what moved together</source>
        <translation>
            <numerusform>%n print that would tell apart what moved together</numerusform><numerusform>%n prints that would tell apart what moved together</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n print(s) that would decide it</source>
        <translation>
            <numerusform>%n print that would decide it</numerusform><numerusform>%n prints that would decide it</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n print(s) to find out what matters at all</source>
        <translation>
            <numerusform>%n print to find out what matters at all</numerusform><numerusform>%n prints to find out what matters at all</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>For 80 in 100 it takes %n trial(s).</source>
        <translation>
            <numerusform>For 80 in 100 it takes %n trial.</numerusform><numerusform>For 80 in 100 it takes %n trials.</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n print(s) stand prepared on the Bench</source>
        <translation>
            <numerusform>%n print stand prepared on the Bench</numerusform><numerusform>%n prints stand prepared on the Bench</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::PhotoStrip</name>
    <message numerus="yes">
        <source>Add %n photo(s)</source>
        <translation>
            <numerusform>Add %n photo</numerusform><numerusform>Add %n photos</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>Stored %n photo(s).</source>
        <translation>
            <numerusform>Stored %n photo.</numerusform><numerusform>Stored %n photos.</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>Read densities in the %n &amp;new photo(s)</source>
        <translation>
            <numerusform>Read densities in the %n &amp;new photo</numerusform><numerusform>Read densities in the %n &amp;new photos</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::PrintForm</name>
    <message numerus="yes">
        <source>%1, %n print(s)</source>
        <translation>
            <numerusform>%1, %n print</numerusform><numerusform>%1, %n prints</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%1 and %n more</source>
        <translation>
            <numerusform>%1 and %n more</numerusform><numerusform>%1 and %n more</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%1 is recorded already: %2. You entered %3 for all %n prints.</source>
        <translation>
            <numerusform>%1 is recorded already: %2. You entered %3 for all %n prints.</numerusform><numerusform>%1 is recorded already: %2. You entered %3 for all %n prints.</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::PrintsChart</name>
    <message numerus="yes">
        <source>%n print(s) shown</source>
        <translation>
            <numerusform>%n print shown</numerusform><numerusform>%n prints shown</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::PrintsView</name>
    <message numerus="yes">
        <source>%n print(s)</source>
        <translation>
            <numerusform>%n print</numerusform><numerusform>%n prints</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>Remove %n print(s) with all that was logged for them?</source>
        <translation>
            <numerusform>Remove %n print with all that was logged for them?</numerusform><numerusform>Remove %n prints with all that was logged for them?</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>Remove %n print(s)</source>
        <translation>
            <numerusform>Remove %n print</numerusform><numerusform>Remove %n prints</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>Copied %n row(s).</source>
        <translation>
            <numerusform>Copied %n row.</numerusform><numerusform>Copied %n rows.</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n print(s); reading the rest...</source>
        <translation>
            <numerusform>%n print; reading the rest...</numerusform><numerusform>%n prints; reading the rest...</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%1 of %n print(s)</source>
        <translation>
            <numerusform>%1 of %n print</numerusform><numerusform>%1 of %n prints</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>None of the %n print(s) is what the filter asks for.</source>
        <translation>
            <numerusform>None of the %n print is what the filter asks for.</numerusform><numerusform>None of the %n prints is what the filter asks for.</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>Stored %n photo(s) with the print on their label.</source>
        <translation>
            <numerusform>Stored %n photo with the print on their label.</numerusform><numerusform>Stored %n photos with the print on their label.</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::ReadingDesk</name>
    <message numerus="yes">
        <source>Name of the card with these %n patch(es)</source>
        <translation>
            <numerusform>Name of the card with these %n patch</numerusform><numerusform>Name of the card with these %n patches</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>The card %1 is kept, with %n patch(es).</source>
        <translation>
            <numerusform>The card %1 is kept, with %n patch.</numerusform><numerusform>The card %1 is kept, with %n patches.</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>Recorded readings that were kept: %n.</source>
        <translation>
            <numerusform>Recorded readings that were kept: %n.</numerusform><numerusform>Recorded readings that were kept: %n.</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::ShelfView</name>
    <message numerus="yes">
        <source>%n print(s)</source>
        <translation>
            <numerusform>%n print</numerusform><numerusform>%n prints</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n session(s)</source>
        <translation>
            <numerusform>%n session</numerusform><numerusform>%n sessions</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n mix(es)</source>
        <translation>
            <numerusform>%n mix</numerusform><numerusform>%n mixes</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n exposure(s)</source>
        <translation>
            <numerusform>%n exposure</numerusform><numerusform>%n exposures</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n other record(s)</source>
        <translation>
            <numerusform>%n other record</numerusform><numerusform>%n other records</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::TermView</name>
    <message numerus="yes">
        <source>%n print(s)</source>
        <translation>
            <numerusform>%n print</numerusform><numerusform>%n prints</numerusform></translation>
    </message>
    <message numerus="yes">
        <source>%n print(s) written to %1</source>
        <translation>
            <numerusform>%n print written to %1</numerusform><numerusform>%n prints written to %1</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::curves::CurveHeading</name>
    <message numerus="yes">
        <source>and %n more</source>
        <translation>
            <numerusform>and %n more</numerusform><numerusform>and %n more</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::curves::CurvePage</name>
    <message numerus="yes">
        <source>%n print(s)</source>
        <translation>
            <numerusform>%n print</numerusform><numerusform>%n prints</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::curves::NegativePage</name>
    <message numerus="yes">
        <source>Film %1 with %n step(s)</source>
        <translation>
            <numerusform>Film %1 with %n step</numerusform><numerusform>Film %1 with %n steps</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::mixing::CheckPage</name>
    <message numerus="yes">
        <source>Use it for %n print(s) without a mix</source>
        <translation>
            <numerusform>Use it for %n print without a mix</numerusform><numerusform>Use it for %n prints without a mix</numerusform></translation>
    </message>
</context>
<context>
    <name>washfast::ui::EntryStrip</name>
    <message numerus="yes">
        <source>%n values that had been recorded before were kept.</source>
        <translation>
            <numerusform>%n values that had been recorded before were kept.</numerusform><numerusform>%n values that had been recorded before were kept.</numerusform></translation>
    </message>
</context>
</TS>
