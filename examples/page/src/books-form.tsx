// The specifications at hand, each with where it comes from.

import { emptyBook } from "./blank";
import { at } from "./draft";
import { GroupFaults, Line, Pick, type Sheet } from "./field";
import { LimitsForm } from "./limits-form";

interface Props {
  sheet: Sheet;
  unit: string;
  warmth: string;
}

export function BooksForm({ sheet, unit, warmth }: Props) {
  const books = (at(sheet.document, "/specifications") ?? []) as unknown[];
  const add = () => {
    sheet.write("/specifications", [...books, emptyBook(`book-${books.length + 1}`)]);
  };
  return (
    <>
      {books.map((_, i) => {
        const place = `/specifications/${i}`;
        return (
          <fieldset class="group" key={i}>
            <legend>Book figures{books.length > 1 && `, book ${i + 1}`}</legend>
            <div class="fields">
              <Line sheet={sheet} at={`${place}/document`} label="Title of the book or sheet" kind="text" />
              <Line sheet={sheet} at={`${place}/edition`} label="Edition" kind="text" />
              <Pick
                sheet={sheet}
                at={`${place}/condition`}
                label="Figures are for the engine"
                choices={[
                  ["cold", "cold"],
                  ["hot", "hot"],
                ]}
              />
              <Line sheet={sheet} at={`${place}/reference`} label="Temperature they are for" unit={warmth} />
              <Line
                sheet={sheet}
                at={`${place}/engine_numbers/from`}
                label="Serial numbers from"
                kind="number"
              />
              <Line sheet={sheet} at={`${place}/engine_numbers/to`} label="Serial numbers to" kind="number" />
            </div>
            <GroupFaults sheet={sheet} places={[place, `${place}/engine_numbers`]} />
            <LimitsForm sheet={sheet} place={place} unit={unit} rest={i === 0} />
            {books.length > 1 && (
              <button type="button" class="quiet" onClick={() => sheet.write(place, undefined)}>
                Take this book out
              </button>
            )}
          </fieldset>
        );
      })}
      <button type="button" onClick={add}>
        Add a book
      </button>
    </>
  );
}
