import { methods } from '@/lib/forms/method-choices'
import { SelectField, TextField, type Choice } from '@/app/ui/field'

export function FirstTrialFields({ sweeteners, milks }: { sweeteners: readonly Choice[]; milks: readonly Choice[] }) {
  return (
    <>
      <TextField name="name" label="Name" required help="What sets it apart: “1:9, 30 g date syrup”." />
      <SelectField name="method" label="Method" choices={methods} />
      <div className="grid grid-cols-2 gap-4">
        <TextField name="coffee" label="Dry coffee" unit="g" inputMode="decimal" />
        <TextField name="water" label="Water in" unit="g" inputMode="decimal" help="For espresso: beverage out." />
      </div>
      <div className="grid grid-cols-[1fr_8rem] gap-4">
        <SelectField name="sweetener" label="Sweetener" choices={sweeteners} none="none" />
        <TextField name="sweetenerAmount" label="Dose" unit="g" inputMode="decimal" />
      </div>
      <div className="grid grid-cols-[1fr_8rem] gap-4">
        <SelectField name="milk" label="Milk or plant drink" choices={milks} none="none" />
        <TextField name="milkAmount" label="Amount" unit="ml" inputMode="decimal" />
      </div>
      <TextField name="ice" label="Ice" unit="g" inputMode="decimal" help="May stay empty." />
    </>
  )
}
