import { type Arrangement, ORDERS, type Order, orderName } from './arrange';
import { element } from './dom';
import { filled, say } from './words';

/** The list of orders and the field to look for rooms in. */
export class ArrangeBar {
  private readonly order = element(
    'select',
    { id: 'order', 'aria-label': say.orderOfRooms },
    ...ORDERS.map((one) => element('option', { value: one }, orderName(one))),
  );
  private readonly find = element('input', {
    id: 'find',
    type: 'search',
    placeholder: say.findRooms,
    'aria-label': say.findRoomsBy,
    spellcheck: 'false',
  });
  private readonly count = element('span', { class: 'count', 'aria-live': 'polite' });
  readonly element = element('div', { class: 'arrange' }, this.order, this.find, this.count);

  constructor(change: (arrangement: Arrangement) => void) {
    const tell = () => change({ order: this.order.value as Order, find: this.find.value });
    this.order.addEventListener('change', tell);
    this.find.addEventListener('input', tell);
    this.find.addEventListener('keydown', (event) => {
      if (event.key !== 'Escape' || this.find.value === '') return;
      this.find.value = '';
      tell();
    });
  }

  show({ order, find }: Arrangement, shown: number, all: number): void {
    this.order.value = order;
    if (this.find.value !== find) this.find.value = find;
    this.count.textContent = shown === all ? '' : filled(say.shownRooms, shown, all);
  }

  focus(): void {
    this.find.focus();
  }
}
