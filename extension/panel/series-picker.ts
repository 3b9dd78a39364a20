import type { SupplySeries, TimelineView } from '../../src/report/timeline-types';
import { element } from './dom';
import type { ViewState } from './state';
import { say } from './words';

/** The series that the person has picked; all varieties where it is gone. */
export function pickedSeries(view: TimelineView, state: ViewState): SupplySeries | undefined {
  return view.supply.find(({ name }) => name === state.series) ?? view.supply[0];
}

/** The list to pick a variety from. */
export function seriesPicker(
  id: string,
  view: TimelineView,
  picked: SupplySeries,
  pick: (name: string) => void,
): HTMLSelectElement {
  const picker = element(
    'select',
    { id, 'aria-label': say.varietyPicker },
    ...view.supply.map(({ name }) => element('option', { selected: name === picked.name }, name)),
  );
  picker.addEventListener('change', () => pick(picker.value));
  return picker;
}
