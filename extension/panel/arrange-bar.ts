import { type Arrangement, ORDERS, type Order, orderName, PICKS, type Pick, pickName } from './arrange';
import { element } from './dom';
import { filled, say } from './words';

/** The lists of orders and of picks, and the field to look for rooms in. */
export class ArrangeBar {
  private readonly order = element(
    'select',
    { id: 'order', 'aria-label': say.orderOfRooms },
    ...ORDERS.map((one) => element('option', { value: one }, orderName(one))),
  );
  private readonly pick = element(
    'select',
    { id: 'pick', 'aria-label': say.pickRooms },
    ...PICKS.map((one) => element('option', { value: one }, pickName(one))),
  );
  private readonly find = element('input', {
    id: 'find',
    type: 'search',
    placeholder: say.findRooms,
    'aria-label': say.findRoomsBy,
    spellcheck: 'false',
  });
  private readonly count = element('span', { class: 'count', 'aria-live': 'polite' });
  readonly element = element('div', { class: 'arrange' }, this.order, this.pick, this.find, this.count);

  constructor(change: (arrangement: Arrangement) => void) {
    const tell = () =>
      change({
        order: this.order.value as Order,
        pick: this.pick.value as Pick,
        find: this.find.value,
      });
    for (const list of [this.order, this.pick]) list.addEventListener('change', tell);
    this.find.addEventListener('input', tell);
    this.find.addEventListener('keydown', (event) => {
      if (event.key !== 'Escape' || this.find.value === '') return;
      this.find.value = '';
      tell();
    });
  }

  /** `beside`: whether there is another state that rooms can differ from. */
  show({ order, pick, find }: Arrangement, shown: number, all: number, beside: boolean): void {
    this.order.value = order;
    this.pick.value = pick;
    for (const option of this.pick.options) option.hidden = option.value === 'differs' && !beside;
    if (this.find.value !== find) this.find.value = find;
    this.count.textContent = shown === all ? '' : filled(say.shownRooms, shown, all);
  }

  focus(): void {
    this.find.focus();
  }
}
