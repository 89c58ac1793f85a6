<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="en" sourcelanguage="en">
<context>
    <name>Bench</name>
    <message numerus="yes">
        <source>%n exposures</source>
        <translation>
            <numerusform>%n exposure</numerusform>
            <numerusform>%n exposures</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n baths</source>
        <translation>
            <numerusform>%n bath</numerusform>
            <numerusform>%n baths</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n readings</source>
        <translation>
            <numerusform>%n reading</numerusform>
            <numerusform>%n readings</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n not begun</source>
        <translation>
            <numerusform>%n not begun</numerusform>
            <numerusform>%n not begun</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n finished</source>
        <translation>
            <numerusform>%n finished</numerusform>
            <numerusform>%n finished</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n prints</source>
        <translation>
            <numerusform>%n print</numerusform>
            <numerusform>%n prints</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n waiting for the day after</source>
        <translation>
            <numerusform>%n waiting for the day after</numerusform>
            <numerusform>%n waiting for the day after</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n due: reading a day after</source>
        <translation>
            <numerusform>%n due: reading a day after</numerusform>
            <numerusform>%n due: reading a day after</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n masses, %1</source>
        <translation>
            <numerusform>%n mass, %1</numerusform>
            <numerusform>%n masses, %1</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n readings, %1</source>
        <translation>
            <numerusform>%n reading, %1</numerusform>
            <numerusform>%n readings, %1</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n readings, %1, %2</source>
        <translation>
            <numerusform>%n reading, %1, %2</numerusform>
            <numerusform>%n readings, %1, %2</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 and %n more</source>
        <translation>
            <numerusform>%1 and %n more</numerusform>
            <numerusform>%1 and %n more</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>Causes</name>
    <message numerus="yes">
        <source>With %n more prints</source>
        <translation>
            <numerusform>With %n more print</numerusform>
            <numerusform>With %n more prints</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>With %n fewer prints</source>
        <translation>
            <numerusform>With %n fewer print</numerusform>
            <numerusform>With %n fewer prints</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 follow from one another in all %n prints.</source>
        <translation>
            <numerusform>%1 follow from one another in %n print.</numerusform>
            <numerusform>%1 follow from one another in all %n prints.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Each of %1 follows exactly from the others together in all %n prints, so their effects cannot be told apart.</source>
        <translation>
            <numerusform>Each of %1 follows exactly from the others together in %n print, so their effects cannot be told apart.</numerusform>
            <numerusform>Each of %1 follows exactly from the others together in all %n prints, so their effects cannot be told apart.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Exploratory: these %1 of %2 factors were chosen by their own p, as many as %n prints can bear; the intervals do not allow for that choice.</source>
        <translation>
            <numerusform>Exploratory: these %1 of %2 factors were chosen by their own p, as many as %n print can bear; the intervals do not allow for that choice.</numerusform>
            <numerusform>Exploratory: these %1 of %2 factors were chosen by their own p, as many as %n prints can bear; the intervals do not allow for that choice.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Exploratory: these %1 of %2 factors were chosen by their own p, as many as %n prints can bear; the intervals do not allow for that choice, nor for the blocks.</source>
        <translation>
            <numerusform>Exploratory: these %1 of %2 factors were chosen by their own p, as many as %n print can bear; the intervals do not allow for that choice, nor for the blocks.</numerusform>
            <numerusform>Exploratory: these %1 of %2 factors were chosen by their own p, as many as %n prints can bear; the intervals do not allow for that choice, nor for the blocks.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>The tangle has %n factors; this plan takes apart the first %1.</source>
        <translation>
            <numerusform>The tangle has %n factor; this plan takes apart the first %1.</numerusform>
            <numerusform>The tangle has %n factors; this plan takes apart the first %1.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 and %n more</source>
        <translation>
            <numerusform>%1 and %n more</numerusform>
            <numerusform>%1 and %n more</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n prints</source>
        <translation>
            <numerusform>%n print</numerusform>
            <numerusform>%n prints</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Whether %1 was recorded goes with the outcome itself (p %2): %3 of the %n prints without it failed, %4 of the %5 with it. The prints without it are not like the others.</source>
        <translation>
            <numerusform>Whether %1 was recorded goes with the outcome itself (p %2): %3 of the %n print without it failed, %4 of the %5 with it. The print without it is not like the others.</numerusform>
            <numerusform>Whether %1 was recorded goes with the outcome itself (p %2): %3 of the %n prints without it failed, %4 of the %5 with it. The prints without it are not like the others.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n prints have no block recorded; they are compared among themselves.</source>
        <translation>
            <numerusform>%n print has no block recorded; it is left by itself.</numerusform>
            <numerusform>%n prints have no block recorded; they are compared among themselves.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 of %n prints could not be used: %2 is not known for them.</source>
        <translation>
            <numerusform>%1 of %n print could not be used: %2 is not known for them.</numerusform>
            <numerusform>%1 of %n prints could not be used: %2 is not known for them.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Recorded on %1 of the %n failed prints that have signs: %2, as is published for %3.</source>
        <translation>
            <numerusform>Recorded on %1 of the %n failed print that has signs: %2, as is published for %3.</numerusform>
            <numerusform>Recorded on %1 of the %n failed prints that have signs: %2, as is published for %3.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Recorded on %1 of the %n worse prints that have signs: %2, as is published for %3.</source>
        <translation>
            <numerusform>Recorded on %1 of the %n worse print that has signs: %2, as is published for %3.</numerusform>
            <numerusform>Recorded on %1 of the %n worse prints that have signs: %2, as is published for %3.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>None of the %n failed prints that have signs shows %1, which is published for %2.</source>
        <translation>
            <numerusform>The %n failed print that has signs does not show %1, which is published for %2.</numerusform>
            <numerusform>None of the %n failed prints that have signs shows %1, which is published for %2.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>None of the %n worse prints that have signs shows %1, which is published for %2.</source>
        <translation>
            <numerusform>The %n worse print that has signs does not show %1, which is published for %2.</numerusform>
            <numerusform>None of the %n worse prints that have signs shows %1, which is published for %2.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>It is not known for %n prints.</source>
        <translation>
            <numerusform>It is not known for %n print.</numerusform>
            <numerusform>It is not known for %n prints.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>It is not known for %n prints, of which none failed (of the %1 with it, %2 did).</source>
        <translation>
            <numerusform>It is not known for %n print, which did not fail (of the %1 with it, %2 did).</numerusform>
            <numerusform>It is not known for %n prints, of which none failed (of the %1 with it, %2 did).</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>It is not known for %n prints, of which %1 failed (of the %2 with it, %3 did).</source>
        <translation>
            <numerusform>It is not known for %n print, of which %1 failed (of the %2 with it, %3 did).</numerusform>
            <numerusform>It is not known for %n prints, of which %1 failed (of the %2 with it, %3 did).</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 of %n prints came out as it says.</source>
        <translation>
            <numerusform>%1 of %n print came out as it says.</numerusform>
            <numerusform>%1 of %n prints came out as it says.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>It leaves %1 of %n prints unexplained, so something that was not recorded may be behind both.</source>
        <translation>
            <numerusform>It leaves %1 of %n print unexplained, so something that was not recorded may be behind both.</numerusform>
            <numerusform>It leaves %1 of %n prints unexplained, so something that was not recorded may be behind both.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>It was the same within each %1: %2 of them were tried, not %n prints (p %3 with the %1 as unit).</source>
        <translation>
            <numerusform>It was the same within each %1: %2 of them were tried, not %n print (p %3 with the %1 as unit).</numerusform>
            <numerusform>It was the same within each %1: %2 of them were tried, not %n prints (p %3 with the %1 as unit).</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 (exact p %2; %3 after allowing for the %n factors looked at).</source>
        <translation>
            <numerusform>%1 (exact p %2; %3 after allowing for the %n factor looked at).</numerusform>
            <numerusform>%1 (exact p %2; %3 after allowing for the %n factors looked at).</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 (permutation p %2; %3 after allowing for the %n factors looked at).</source>
        <translation>
            <numerusform>%1 (permutation p %2; %3 after allowing for the %n factor looked at).</numerusform>
            <numerusform>%1 (permutation p %2; %3 after allowing for the %n factors looked at).</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 changed together in all %n prints</source>
        <translation>
            <numerusform>%1 changed together in %n print</numerusform>
            <numerusform>%1 changed together in all %n prints</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 and %2 disagree in only %3 of %n prints</source>
        <translation>
            <numerusform>%1 and %2 disagree in only %3 of %n print</numerusform>
            <numerusform>%1 and %2 disagree in only %3 of %n prints</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 disagrees with each of %2 in %n prints at the most</source>
        <translation>
            <numerusform>%1 disagrees with each of %2 in %n print at the most</numerusform>
            <numerusform>%1 disagrees with each of %2 in %n prints at the most</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>None of the other %n recorded factors that varied moves with it or stands out.</source>
        <translation>
            <numerusform>The only other recorded factor that varied does not move with it or stand out.</numerusform>
            <numerusform>None of the other %n recorded factors that varied moves with it or stands out.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>About %n more prints would be needed to show %1.</source>
        <translation>
            <numerusform>About %n more print would be needed to show %1.</numerusform>
            <numerusform>About %n more prints would be needed to show %1.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>All %n prints kept, so there is nothing to compare them with.</source>
        <translation>
            <numerusform>The only print kept, so there is nothing to compare it with.</numerusform>
            <numerusform>All %n prints kept, so there is nothing to compare them with.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>All %n prints failed, so there is nothing to compare them with.</source>
        <translation>
            <numerusform>The only print failed, so there is nothing to compare it with.</numerusform>
            <numerusform>All %n prints failed, so there is nothing to compare them with.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>No recorded factor varied between these %n prints, so none can be compared.</source>
        <translation>
            <numerusform>There is only %n print, so no factor can be compared.</numerusform>
            <numerusform>No recorded factor varied between these %n prints, so none can be compared.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>That rests on %n prints on one side, and a cause needs at least %1 on each: about %2 more.</source>
        <translation>
            <numerusform>That rests on %n print on one side, and a cause needs at least %1 on each: about %2 more.</numerusform>
            <numerusform>That rests on %n prints on one side, and a cause needs at least %1 on each: about %2 more.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>No factor stands out clearly enough from chance in these %n prints.</source>
        <translation>
            <numerusform>No factor stands out clearly enough from chance in this %n print.</numerusform>
            <numerusform>No factor stands out clearly enough from chance in these %n prints.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>Cli</name>
    <message numerus="yes">
        <source>The file is sound: schema %1, %n prints.</source>
        <translation>
            <numerusform>The file is sound: schema %1, %n print.</numerusform>
            <numerusform>The file is sound: schema %1, %n prints.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n rows have an empty cell and were left out.</source>
        <translation>
            <numerusform>%n row has an empty cell and was left out.</numerusform>
            <numerusform>%n rows have an empty cell and were left out.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Logistic through %n steps</source>
        <translation>
            <numerusform>Logistic through %n step</numerusform>
            <numerusform>Logistic through %n steps</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Rising curve through %n steps</source>
        <translation>
            <numerusform>Rising curve through %n step</numerusform>
            <numerusform>Rising curve through %n steps</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Wrote an invented example with %n prints to %1.</source>
        <translation>
            <numerusform>Wrote an invented example with %n print to %1.</numerusform>
            <numerusform>Wrote an invented example with %n prints to %1.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Wrote %n prints to %1 and %2.</source>
        <translation>
            <numerusform>Wrote %n print to %1 and %2.</numerusform>
            <numerusform>Wrote %n prints to %1 and %2.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Wrote %n prints to %1.</source>
        <translation>
            <numerusform>Wrote %n print to %1.</numerusform>
            <numerusform>Wrote %n prints to %1.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Import %n prints from %1</source>
        <translation>
            <numerusform>Import %n print from %1</numerusform>
            <numerusform>Import %n prints from %1</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 of %n rows cannot be taken as they are, so nothing is imported. Put them right, or take the good ones with --keep-good.</source>
        <translation>
            <numerusform>%1 of %n row cannot be taken as it is, so nothing is imported. Put it right, or take the good ones with --keep-good.</numerusform>
            <numerusform>%1 of %n rows cannot be taken as they are, so nothing is imported. Put them right, or take the good ones with --keep-good.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n prints would be imported; already there: %1, rows refused: %2.</source>
        <translation>
            <numerusform>%n print would be imported; already there: %1, rows refused: %2.</numerusform>
            <numerusform>%n prints would be imported; already there: %1, rows refused: %2.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n prints imported; already there: %1, rows refused: %2.</source>
        <translation>
            <numerusform>%n print imported; already there: %1, rows refused: %2.</numerusform>
            <numerusform>%n prints imported; already there: %1, rows refused: %2.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>Curves</name>
    <message numerus="yes">
        <source>More exposure (+) or less (−) that is needed as the mix gets older, from %n print(s). An interval that holds both says that no drift is to be seen.</source>
        <translation>
            <numerusform>More exposure (+) or less (−) that is needed as the mix gets older, from %n print. An interval that holds both says that no drift is to be seen.</numerusform>
            <numerusform>More exposure (+) or less (−) that is needed as the mix gets older, from %n prints. An interval that holds both says that no drift is to be seen.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Its own steps do not show how steep the curve is: the slope is that of %n other print(s) of this formula on this paper.</source>
        <translation>
            <numerusform>Its own steps do not show how steep the curve is: the slope is that of %n other print of this formula on this paper.</numerusform>
            <numerusform>Its own steps do not show how steep the curve is: the slope is that of %n other prints of this formula on this paper.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n print(s), each with a speed of its own; the curve is that of a print of ordinary speed.</source>
        <translation>
            <numerusform>%n print, each with a speed of its own; the curve is that of a print of ordinary speed.</numerusform>
            <numerusform>%n prints, each with a speed of its own; the curve is that of a print of ordinary speed.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Set the wanted dose of %n print(s) of session %1 (%2, not exposed yet) to %3 J/cm²?</source>
        <translation>
            <numerusform>Set the wanted dose of %n print of session %1 (%2, not exposed yet) to %3 J/cm²?</numerusform>
            <numerusform>Set the wanted dose of %n prints of session %1 (%2, not exposed yet) to %3 J/cm²?</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Another one is set for %n of them now.</source>
        <translation>
            <numerusform>Another one is set for %n of them now.</numerusform>
            <numerusform>Another one is set for %n of them now.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Wanted dose of %n print(s) set to %1 J/cm².</source>
        <translation>
            <numerusform>Wanted dose of %n print set to %1 J/cm².</numerusform>
            <numerusform>Wanted dose of %n prints set to %1 J/cm².</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>“%1” has %n step(s) with both a printed value and an ultraviolet density; a tone table needs at least three.</source>
        <translation>
            <numerusform>“%1” has %n step with both a printed value and an ultraviolet density; a tone table needs at least three.</numerusform>
            <numerusform>“%1” has %n steps with both a printed value and an ultraviolet density; a tone table needs at least three.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Let the ink dry. The chart has %n step(s) from 0 to 100 per cent of ink, in even steps; step 1 is the clear one.</source>
        <translation>
            <numerusform>Let the ink dry. The chart has %n step from 0 to 100 per cent of ink, in even steps; step 1 is the clear one.</numerusform>
            <numerusform>Let the ink dry. The chart has %n steps from 0 to 100 per cent of ink, in even steps; step 1 is the clear one.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Of %n prints the latest %1 were taken.</source>
        <translation>
            <numerusform>Of %n print the latest %1 were taken.</numerusform>
            <numerusform>Of %n prints the latest %1 were taken.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Step chart for film, %n steps</source>
        <translation>
            <numerusform>Step chart for film, %n step</numerusform>
            <numerusform>Step chart for film, %n steps</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>Density</name>
    <message numerus="yes">
        <source>%n steps are too few for an S-shaped curve; with its slope fixed from earlier wedges fewer are enough.</source>
        <translation>
            <numerusform>%n step is too few for an S-shaped curve; with its slope fixed from earlier wedges fewer are enough.</numerusform>
            <numerusform>%n steps are too few for an S-shaped curve; with its slope fixed from earlier wedges fewer are enough.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>The density falls again in the deepest %n steps (reversal); they were left out.</source>
        <translation>
            <numerusform>The density falls again in the deepest step (reversal); it was left out.</numerusform>
            <numerusform>The density falls again in the deepest %n steps (reversal); they were left out.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>The region %1 has %n pixels only.</source>
        <translation>
            <numerusform>The region %1 has %n pixel only.</numerusform>
            <numerusform>The region %1 has %n pixels only.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>Drying</name>
    <message numerus="yes">
        <source>Drying as in %n earlier print(s) on this paper by this method.</source>
        <translation>
            <numerusform>Drying as in %n earlier print on this paper by this method.</numerusform>
            <numerusform>Drying as in %n earlier prints on this paper by this method.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Drying as in %n earlier print(s) by this method on other paper.</source>
        <translation>
            <numerusform>Drying as in %n earlier print by this method on other paper.</numerusform>
            <numerusform>Drying as in %n earlier prints by this method on other paper.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n sheets, %1 coated at a time.</source>
        <translation>
            <numerusform>%n sheet, %1 coated at a time.</numerusform>
            <numerusform>%n sheets, %1 coated at a time.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Until %1 J/cm², %n sheets at a time.</source>
        <translation>
            <numerusform>Until %1 J/cm², one sheet at a time.</numerusform>
            <numerusform>Until %1 J/cm², %n sheets at a time.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>Exchange</name>
    <message numerus="yes">
        <source>Nothing was imported, because %1 of %n rows cannot be taken as they are.</source>
        <translation>
            <numerusform>Nothing was imported, because %1 of %n row cannot be taken as it is.</numerusform>
            <numerusform>Nothing was imported, because %1 of %n rows cannot be taken as they are.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Of %n prints %1 kept, %2 failed, and of %3 no outcome was recorded. A print has failed when any outcome but “kept” was recorded.</source>
        <translation>
            <numerusform>Of %n print %1 kept, %2 failed, and of %3 no outcome was recorded. A print has failed when any outcome but “kept” was recorded.</numerusform>
            <numerusform>Of %n prints %1 kept, %2 failed, and of %3 no outcome was recorded. A print has failed when any outcome but “kept” was recorded.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n prints have both tones; the line in each session is its median, which the table of sessions gives.</source>
        <translation>
            <numerusform>%n print has both tones; the line in each session is its median, which the table of sessions gives.</numerusform>
            <numerusform>%n prints have both tones; the line in each session is its median, which the table of sessions gives.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n prints have a dose and a net density; the tables give them.</source>
        <translation>
            <numerusform>%n print has a dose and a net density; the tables give them.</numerusform>
            <numerusform>%n prints have a dose and a net density; the tables give them.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>Light</name>
    <message numerus="yes">
        <source>The exposure lasts longer than %n hours, so no dose is calculated: check its times.</source>
        <translation>
            <numerusform>The exposure lasts longer than %n hour, so no dose is calculated: check its times.</numerusform>
            <numerusform>The exposure lasts longer than %n hours, so no dose is calculated: check its times.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>Quantity</name>
    <message numerus="yes">
        <source>%n years</source>
        <translation>
            <numerusform>%n year</numerusform>
            <numerusform>%n years</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n days</source>
        <translation>
            <numerusform>%n day</numerusform>
            <numerusform>%n days</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n hours</source>
        <translation>
            <numerusform>%n hour</numerusform>
            <numerusform>%n hours</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n minutes</source>
        <translation>
            <numerusform>%n minute</numerusform>
            <numerusform>%n minutes</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>ReadingView</name>
    <message numerus="yes">
        <source>%1 and %n more</source>
        <translation>
            <numerusform>%1 and %n more</numerusform>
            <numerusform>%1 and %n more</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>And %n more.</source>
        <translation>
            <numerusform>And %n more.</numerusform>
            <numerusform>And %n more.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Enter %n readings from a photo</source>
        <translation>
            <numerusform>Enter %n reading from a photo</numerusform>
            <numerusform>Enter %n readings from a photo</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>Store</name>
    <message numerus="yes">
        <source>None of the %n copies in the folder %1 is sound.</source>
        <translation>
            <numerusform>The %n copy in the folder %1 is not sound.</numerusform>
            <numerusform>None of the %n copies in the folder %1 is sound.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>Sunlight</name>
    <message numerus="yes">
        <source>No prints yet: %n sheets are assumed.</source>
        <translation>
            <numerusform>No prints yet: %n sheet is assumed.</numerusform>
            <numerusform>No prints yet: %n sheets are assumed.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>Trial</name>
    <message numerus="yes">
        <source>“%1” is the beginning of %n fields: %2 and more.</source>
        <translation>
            <numerusform>“%1” is the beginning of %n field: %2 and more.</numerusform>
            <numerusform>“%1” is the beginning of %n fields: %2 and more.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>“%1” is the beginning of %n fields: %2.</source>
        <translation>
            <numerusform>“%1” is the beginning of %n field: %2.</numerusform>
            <numerusform>“%1” is the beginning of %n fields: %2.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::AgePlot</name>
    <message numerus="yes">
        <source>Net density against the age of the mix when coated, %n print(s)</source>
        <translation>
            <numerusform>Net density against the age of the mix when coated, %n print</numerusform>
            <numerusform>Net density against the age of the mix when coated, %n prints</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::AnswerPanel</name>
    <message numerus="yes">
        <source>and %n more</source>
        <translation>
            <numerusform>and %n more</numerusform>
            <numerusform>and %n more</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::BesideView</name>
    <message numerus="yes">
        <source>%n row(s) differ</source>
        <translation>
            <numerusform>%n row differs</numerusform>
            <numerusform>%n rows differ</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::CausesView</name>
    <message numerus="yes">
        <source>Exact tests of %n factor(s).</source>
        <translation>
            <numerusform>Exact tests of %n factor.</numerusform>
            <numerusform>Exact tests of %n factors.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n print(s) not shown: this or the outcome was not recorded</source>
        <translation>
            <numerusform>%n print not shown: this or the outcome was not recorded</numerusform>
            <numerusform>%n prints not shown: this or the outcome was not recorded</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::CurvesView</name>
    <message numerus="yes">
        <source>This plot needs &quot;%1&quot; and &quot;%2&quot; of a print. %n print(s) lack one of them.</source>
        <translation>
            <numerusform>This plot needs &quot;%1&quot; and &quot;%2&quot; of a print. %n print lacks one of them.</numerusform>
            <numerusform>This plot needs &quot;%1&quot; and &quot;%2&quot; of a print. %n prints lack one of them.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 of %n prints; without a value: %2</source>
        <translation>
            <numerusform>%1 of %n print; without a value: %2</numerusform>
            <numerusform>%1 of %n prints; without a value: %2</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n prints of the running session; the rest is being read</source>
        <translation>
            <numerusform>%n print of the running session; the rest is being read</numerusform>
            <numerusform>%n prints of the running session; the rest is being read</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::Desk</name>
    <message numerus="yes">
        <source>%1, %n print(s)</source>
        <translation>
            <numerusform>%1, %n print</numerusform>
            <numerusform>%1, %n prints</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::EntryStrip</name>
    <message numerus="yes">
        <source>%n values that had been recorded before were kept.</source>
        <translation>
            <numerusform>%n value that had been recorded before was kept.</numerusform>
            <numerusform>%n values that had been recorded before were kept.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::FactorModel</name>
    <message numerus="yes">
        <source>%1: %n print(s), median outcome %2</source>
        <translation>
            <numerusform>%1: %n print, median outcome %2</numerusform>
            <numerusform>%1: %n prints, median outcome %2</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 (%n disagree)</source>
        <translation>
            <numerusform>%1 (%n disagrees)</numerusform>
            <numerusform>%1 (%n disagree)</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::FillStepsDialog</name>
    <message numerus="yes">
        <source>The %n patches that are there are taken away.</source>
        <translation>
            <numerusform>The %n patch that is there is taken away.</numerusform>
            <numerusform>The %n patches that are there are taken away.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>The %n steps that are there are taken away.</source>
        <translation>
            <numerusform>The %n step that is there is taken away.</numerusform>
            <numerusform>The %n steps that are there are taken away.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Fill %n patches</source>
        <translation>
            <numerusform>Fill %n patch</numerusform>
            <numerusform>Fill %n patches</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Fill %n steps</source>
        <translation>
            <numerusform>Fill %n step</numerusform>
            <numerusform>Fill %n steps</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::ImportDialog</name>
    <message numerus="yes">
        <source>%1: %n row(s)</source>
        <translation>
            <numerusform>%1: %n row</numerusform>
            <numerusform>%1: %n rows</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n prints imported; already there: %1, refused: %2. Ctrl+Z takes the import back.</source>
        <translation>
            <numerusform>%n print imported; already there: %1, refused: %2. Ctrl+Z takes the import back.</numerusform>
            <numerusform>%n prints imported; already there: %1, refused: %2. Ctrl+Z takes the import back.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::ImportModel</name>
    <message numerus="yes">
        <source>%n value(s)</source>
        <translation>
            <numerusform>%n value</numerusform>
            <numerusform>%n values</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::MixingView</name>
    <message numerus="yes">
        <source>Kept: %1, for %n print(s) of the session. Ctrl+Z takes it back.</source>
        <translation>
            <numerusform>Kept: %1, for %n print of the session. Ctrl+Z takes it back.</numerusform>
            <numerusform>Kept: %1, for %n prints of the session. Ctrl+Z takes it back.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::NextPage</name>
    <message numerus="yes">
        <source>%n print(s) that would tell apart what moved together</source>
        <translation>
            <numerusform>%n print that would tell apart what moved together</numerusform>
            <numerusform>%n prints that would tell apart what moved together</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n print(s) that would decide it</source>
        <translation>
            <numerusform>%n print that would decide it</numerusform>
            <numerusform>%n prints that would decide it</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n print(s) to find out what matters at all</source>
        <translation>
            <numerusform>%n print to find out what matters at all</numerusform>
            <numerusform>%n prints to find out what matters at all</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>For 80 in 100 it takes %n trial(s).</source>
        <translation>
            <numerusform>For 80 in 100 it takes %n trial.</numerusform>
            <numerusform>For 80 in 100 it takes %n trials.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n print(s) stand prepared on the Bench</source>
        <translation>
            <numerusform>%n print stands prepared on the Bench</numerusform>
            <numerusform>%n prints stand prepared on the Bench</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::PhotoStrip</name>
    <message numerus="yes">
        <source>Add %n photo(s)</source>
        <translation>
            <numerusform>Add %n photo</numerusform>
            <numerusform>Add %n photos</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Stored %n photo(s).</source>
        <translation>
            <numerusform>Stored %n photo.</numerusform>
            <numerusform>Stored %n photos.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Read densities in the %n &amp;new photo(s)</source>
        <translation>
            <numerusform>Read densities in the %n &amp;new photo</numerusform>
            <numerusform>Read densities in the %n &amp;new photos</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::PrintForm</name>
    <message numerus="yes">
        <source>%1, %n print(s)</source>
        <translation>
            <numerusform>%1, %n print</numerusform>
            <numerusform>%1, %n prints</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 and %n more</source>
        <translation>
            <numerusform>%1 and %n more</numerusform>
            <numerusform>%1 and %n more</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 is recorded already: %2. You entered %3 for all %n prints.</source>
        <translation>
            <numerusform>%1 is recorded already: %2. You entered %3 for %n print.</numerusform>
            <numerusform>%1 is recorded already: %2. You entered %3 for %n print..</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::PrintsChart</name>
    <message numerus="yes">
        <source>%n print(s) shown</source>
        <translation>
            <numerusform>%n print shown</numerusform>
            <numerusform>%n prints shown</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::PrintsView</name>
    <message numerus="yes">
        <source>%n print(s)</source>
        <translation>
            <numerusform>%n print</numerusform>
            <numerusform>%n prints</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Remove %n print(s) with all that was logged for them?</source>
        <translation>
            <numerusform>Remove %n print with all that was logged for them?</numerusform>
            <numerusform>Remove %n prints with all that was logged for them?</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Remove %n print(s)</source>
        <translation>
            <numerusform>Remove %n print</numerusform>
            <numerusform>Remove %n prints</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Copied %n row(s).</source>
        <translation>
            <numerusform>Copied %n row.</numerusform>
            <numerusform>Copied %n rows.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n print(s); reading the rest...</source>
        <translation>
            <numerusform>%n print; reading the rest...</numerusform>
            <numerusform>%n prints; reading the rest...</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 of %n print(s)</source>
        <translation>
            <numerusform>%1 of %n print</numerusform>
            <numerusform>%1 of %n prints</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>None of the %n print(s) is what the filter asks for.</source>
        <translation>
            <numerusform>The %n print is not what the filter asks for.</numerusform>
            <numerusform>None of the %n prints is what the filter asks for.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Stored %n photo(s) with the print on their label.</source>
        <translation>
            <numerusform>Stored %n photo with the print on their label.</numerusform>
            <numerusform>Stored %n photos with the print on their label.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::ReadingDesk</name>
    <message numerus="yes">
        <source>Name of the card with these %n patch(es)</source>
        <translation>
            <numerusform>Name of the card with these %n patch</numerusform>
            <numerusform>Name of the card with these %n patches</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>The card %1 is kept, with %n patch(es).</source>
        <translation>
            <numerusform>The card %1 is kept, with %n patch.</numerusform>
            <numerusform>The card %1 is kept, with %n patches.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Recorded readings that were kept: %n.</source>
        <translation>
            <numerusform>Recorded readings that were kept: %n.</numerusform>
            <numerusform>Recorded readings that were kept: %n.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::RowPanel</name>
    <message numerus="yes">
        <source>%n steps found. Number 1 is the clearest step of the wedge, as a rule the deepest blue.</source>
        <translation>
            <numerusform>%n step found. Number 1 is the clearest step of the wedge, as a rule the deepest blue.</numerusform>
            <numerusform>%n steps found. Number 1 is the clearest step of the wedge, as a rule the deepest blue.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n patches of the card %1. Number 1 is the lightest.</source>
        <translation>
            <numerusform>%n patch of the card %1. Number 1 is the lightest.</numerusform>
            <numerusform>%n patches of the card %1. Number 1 is the lightest.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n patches, measured to be kept as a card. Number 1 is the lightest.</source>
        <translation>
            <numerusform>%n patch, measured to be kept as a card. Number 1 is the lightest.</numerusform>
            <numerusform>%n patches, measured to be kept as a card. Number 1 is the lightest.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::ShelfView</name>
    <message numerus="yes">
        <source>%n print(s)</source>
        <translation>
            <numerusform>%n print</numerusform>
            <numerusform>%n prints</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n session(s)</source>
        <translation>
            <numerusform>%n session</numerusform>
            <numerusform>%n sessions</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n mix(es)</source>
        <translation>
            <numerusform>%n mix</numerusform>
            <numerusform>%n mixes</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n exposure(s)</source>
        <translation>
            <numerusform>%n exposure</numerusform>
            <numerusform>%n exposures</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n other record(s)</source>
        <translation>
            <numerusform>%n other record</numerusform>
            <numerusform>%n other records</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::TermView</name>
    <message numerus="yes">
        <source>%n print(s) written to %1</source>
        <translation>
            <numerusform>%n print written to %1</numerusform>
            <numerusform>%n prints written to %1</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n print(s), %1 failed, %2 waiting for the reading a day after</source>
        <translation>
            <numerusform>%n print, %1 failed, %2 waiting for the reading a day after</numerusform>
            <numerusform>%n prints, %1 failed, %2 waiting for the reading a day after</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n print(s), %1 failed</source>
        <translation>
            <numerusform>%n print, %1 failed</numerusform>
            <numerusform>%n prints, %1 failed</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::curves::CurveHeading</name>
    <message numerus="yes">
        <source>and %n more</source>
        <translation>
            <numerusform>and %n more</numerusform>
            <numerusform>and %n more</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::curves::CurvePage</name>
    <message numerus="yes">
        <source>%n print(s)</source>
        <translation>
            <numerusform>%n print</numerusform>
            <numerusform>%n prints</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::curves::NegativePage</name>
    <message numerus="yes">
        <source>Film %1 with %n step(s)</source>
        <translation>
            <numerusform>Film %1 with %n step</numerusform>
            <numerusform>Film %1 with %n steps</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>washfast::ui::mixing::CheckPage</name>
    <message numerus="yes">
        <source>Use it for %n print(s) without a mix</source>
        <translation>
            <numerusform>Use it for %n print without a mix</numerusform>
            <numerusform>Use it for %n prints without a mix</numerusform>
        </translation>
    </message>
</context>
</TS>
