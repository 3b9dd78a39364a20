import { type Arrangement, ORDER_NAMES, ORDERS, type Order } from './arrange';
import { element } from './dom';

/** The list of orders and the field to look for rooms in. */
export class ArrangeBar {
  private readonly order = element(
    'select',
    { id: 'order', 'aria-label': 'Order of rooms' },
    ...ORDERS.map((one) => element('option', { value: one }, ORDER_NAMES[one])),
  );
  private readonly find = element('input', {
    id: 'find',
    type: 'search',
    placeholder: 'Find rooms',
    'aria-label': 'Find rooms by name, variety, regime or fill',
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
    this.count.textContent = shown === all ? '' : `${shown} of ${all} rooms`;
  }

  focus(): void {
    this.find.focus();
  }
}
